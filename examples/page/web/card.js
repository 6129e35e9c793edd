// The card of a session, and what a sore spot makes of it.
const Card = {
  section(card, id) {
    const body = h('div', { class: 'card' }, this.blocks(card));
    return h('section', {}, h('h3', {}, `Card, ${card.minutes} minutes`), body, this.report(card, id, body));
  },

  blocks(card, fresh) {
    const isNew = new Set(fresh || []);
    return [card.blocks.map((b) => h('div', { class: 'block' },
      h('h4', {}, b.name, h('span', { class: 'soft' }, ` ${b.minutes} min${b.rounds > 1 ? `, ${b.rounds} rounds` : ''}`)),
      b.items.length ? h('table', {}, h('caption', { class: 'unseen' }, b.name), h('thead', { class: 'unseen' }, h('tr', {}, h('th', { scope: 'col' }, 'Exercise'), h('th', { scope: 'col' }, 'Dose'), h('th', { scope: 'col' }, 'Load or effort'))),
        h('tbody', {}, b.items.map((it) => h('tr', {}, h('th', { scope: 'row' }, it.text, isNew.has(it.text.split(',')[0]) ? h('em', { class: 'tag' }, 'new') : null), h('td', {}, it.change), h('td', {}, it.why))))) : null)),
    list(card.notes, { class: 'soft' })];
  },

  // report is the form for a sore spot. Nothing of it is kept.
  report(card, id, body) {
    const out = h('div', { class: 'today', 'aria-live': 'polite' });
    const region = h('select', { id: 'sore-region' }, App.choices.regions.map((r) => h('option', { value: r }, r)));
    const pain = h('input', { type: 'range', id: 'sore-pain', min: 0, max: 10, step: 1, value: 3, 'aria-describedby': 'sore-says' });
    const says = h('output', { id: 'sore-says', for: 'sore-pain' }, '3 of 10');
    pain.addEventListener('input', () => { says.textContent = `${pain.value} of 10`; });
    const sides = ['left', 'right', 'both'].map((s, i) => h('label', {}, h('input', { type: 'radio', name: 'sore-side', value: s, checked: i === 0 }), s));
    const form = h('form', { class: 'sore' },
      h('p', { class: 'soft' }, 'For today only. It is not kept, not saved and not printed.'),
      h('label', { for: 'sore-region' }, 'Where'), region,
      h('fieldset', {}, h('legend', {}, 'Side'), sides),
      h('label', { for: 'sore-pain' }, 'Pain, 0 to 10'), h('div', { class: 'range' }, pain, says),
      h('button', { type: 'submit' }, 'Show today’s card'));
    form.addEventListener('submit', async (e) => {
      e.preventDefault();
      const side = form.querySelector('[name=sore-side]:checked').value;
      const r = await App.ask('report', { session: id, region: region.value, side, pain: Number(pain.value) });
      if (r) this.today(r, card, body, out);
    });
    return h('details', { class: 'report' }, h('summary', {}, 'Report a sore spot'), form, out);
  },

  today(r, card, body, out) {
    fill(body, r.card ? this.blocks(r.card, r.in) : h('p', { class: 'held' }, h('b', {}, 'No session today.'), ' Tell an adult, the coach or a clinician.'));
    fill(out, h('h4', {}, `Today: ${r.state}`), list(r.why),
      r.out.length ? h('p', {}, h('b', {}, 'Out: '), r.out.join(', ')) : null,
      r.in.length ? h('p', {}, h('b', {}, 'In: '), r.in.join(', ')) : null,
      list(r.questions),
      r.refer ? h('p', { class: 'held' }, 'A clinician should have a look, though training goes on.') : null,
      r.clearance ? [h('p', {}, 'It stays so until a named clinician clears it.'), button('Hold all sessions from this date', () => App.propose('hold', { from: App.dateOf('session', card.session) }))] : null,
      button('Back to the card as written', () => { fill(body, this.blocks(card)); fill(out); }));
    say(`Today: ${r.state}`);
  },
};
