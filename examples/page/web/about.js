// Why something is there, why not, and what else could be, with its price.
const About = {
  async date(date) {
    const r = await App.ask('date', { date });
    if (!r) return;
    const day = App.day(date);
    const there = ((day && day.items) || []).map((it) => [it.when, it.title, it.text && it.type !== 'session' ? it.text : ''].filter(Boolean).join(' '));
    Panel.show(r.title, h('p', { class: 'lead' }, there.length ? there.join(' · ') : 'Nothing is planned here.'), this.past(r), this.parts(r, null), this.help(r));
  },

  async session(id) {
    const r = await App.ask('session', { id });
    if (!r) return;
    const it = App.item('session', id);
    Panel.show(`${it.title}, ${r.title}`,
      h('p', { class: 'lead' }, [it.when, it.there, it.place].filter(Boolean).join(' · '), it.state !== 'as written' ? [' · ', stateMark(it.became || it.state), [it.state, it.became].filter(Boolean).join(', ')] : null),
      r.why.length ? h('section', {}, h('h3', {}, 'Why it is here'), list(r.why)) : null,
      this.past(r),
      this.parts(r, id),
      r.card ? Card.section(r.card, id) : null,
      this.help(r));
  },

  past(r) {
    return r.past ? h('p', { class: 'soft' }, 'This date is past: it stays as it was.') : null;
  },

  parts(r, id) {
    if (r.past) return null;
    if (r.nothing) return h('p', {}, r.nothing);
    return [
      h('section', {}, h('h3', {}, id ? 'Instead, on this date' : 'What else could be here'), this.choices(r.possible, id, false)),
      id ? h('section', {}, h('h3', {}, 'The same on another date'), this.choices(r.elsewhere, id, true)) : null,
      r.forbidden.length ? h('details', { open: !id }, h('summary', {}, 'What cannot be here, and why not'), h('dl', { class: 'forbidden' }, r.forbidden.map((c) => [h('dt', {}, mark(c), c.title), h('dd', {}, list(c.limits))]))) : null,
    ];
  },

  help(r) {
    return r.past || r.nothing ? null : h('details', { class: 'help' }, h('summary', {}, 'How to read the points'),
      h('p', {}, 'Points are what a missed aim weighs: 1 a small convenience, 60 a recovery session after a game, 120 a second full-body session of a week, 240 a primer, 1120 a week without full-body. The plan is the one with the fewest; “as good” means that it is a matter of taste.'));
  },

  choices(all, id, dated) {
    if (!all.length) return h('p', { class: 'soft' }, dated ? 'On no other date near by.' : 'Nothing: all is ruled out, as is said below.');
    return h('ul', { class: 'choices' }, all.map((c) => h('li', {},
      h('div', { class: 'choice' }, h('span', { class: 'what' }, mark(c), h('b', {}, dated ? c.day : c.title)), h('span', {}, c.when), h('span', { class: 'price' }, c.price)),
      list(c.costs, { class: 'soft' }),
      c.taking ? button('Try it', () => App.propose('pin', { date: c.date, kind: c.kind, start: c.start, place: c.place, instead: dated ? id : '' }), { 'aria-label': `Try it: ${c.title} ${dated ? c.day : ''} ${c.when}` }) : null)));
  },
};
