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

  // report is the form for a sore spot. What it says is not kept; what it leads to
  // is, once somebody confirms it.
  report(card, id, body) {
    const out = h('div', { class: 'today', 'aria-live': 'polite' });
    const region = h('select', { id: 'sore-region' }, App.choices.regions.map((r) => h('option', { value: r }, r)));
    const pain = h('input', { type: 'range', id: 'sore-pain', min: 0, max: 10, step: 1, value: 3, 'aria-describedby': 'sore-says' });
    const minutes = h('input', { type: 'number', id: 'sore-minutes', min: 5, max: 240, step: 1, placeholder: String(card.minutes) });
    const sign = h('select', { id: 'sore-sign' }, h('option', { value: '' }, 'none of them'), App.choices.signs.map((s) => h('option', { value: s }, s)));
    const says = h('output', { id: 'sore-says', for: 'sore-pain' }, '3 of 10');
    pain.addEventListener('input', () => { says.textContent = `${pain.value} of 10`; });
    const sides = ['left', 'right', 'both'].map((s, i) => h('label', {}, h('input', { type: 'radio', name: 'sore-side', value: s, checked: i === 0 }), s));
    const form = h('form', { class: 'sore' },
      h('p', { class: 'soft' }, 'What is said here is not kept, not saved and not printed. What it leads to is shown first.'),
      h('label', { for: 'sore-region' }, 'Where'), region,
      h('fieldset', {}, h('legend', {}, 'Side'), sides),
      h('label', { for: 'sore-pain' }, 'Pain, 0 to 10'), h('div', { class: 'range' }, pain, says),
      h('label', { for: 'sore-minutes' }, 'Minutes there are, if fewer'), minutes,
      h('label', { for: 'sore-sign' }, 'Or one of these'), sign,
      h('button', { type: 'submit', class: 'main' }, 'Show what becomes of it'));
    form.addEventListener('submit', async (e) => {
      e.preventDefault();
      const side = form.querySelector('[name=sore-side]:checked').value;
      const r = await App.ask('report', { session: id, region: region.value, side, pain: Number(pain.value), minutes: Number(minutes.value), sign: sign.value });
      if (r) this.today(r, card, body, out);
    });
    return h('details', { class: 'report' }, h('summary', {}, 'Report a sore spot'), form, out);
  },

  today(r, card, body, out) {
    fill(body, r.card ? this.blocks(r.card, r.in) : h('p', { class: 'held' }, h('b', {}, 'No session today.'), ' Tell an adult, the coach or a clinician.'));
    fill(out, h('h4', { tabindex: '-1' }, stateMark(r.state), `Today: ${r.state}`), list(r.why),
      r.out.length ? h('p', {}, h('b', {}, 'Out: '), r.out.join(', ')) : null,
      r.in.length ? h('p', {}, h('b', {}, 'In: '), r.in.join(', ')) : null,
      list(r.questions),
      r.refer ? h('p', { class: 'held' }, 'A clinician should have a look, though training goes on.') : null,
      r.clearance ? h('p', {}, 'It stays so until a named clinician clears it.') : null,
      this.rest(r.rest),
      h('div', { class: 'row' }, button('Confirm', () => App.accept(`Today: ${r.state}. Undo takes it back.`), { class: 'main', id: 'day-confirm' }),
        button('Leave all as it was', async () => { fill(body, this.blocks(card)); fill(out); await App.ask('discard'); say('All is as it was.'); }, { id: 'day-leave' })));
    out.querySelector('h4').focus();
    say(`Today: ${r.state}. ${r.rest.off || r.rest.changes.length || 'No'} other sessions change.`);
  },

  // rest is what the day makes of the rest of the plan.
  rest(r) {
    const most = 12;
    let what = h('p', {}, 'The rest of the plan stays as it is.');
    if (r.off) what = h('p', {}, `${r.off} ${r.off === 1 ? 'session is' : 'sessions are'} off until the hold is cleared.`);
    else if (r.changes.length) what = h('ul', { class: 'slip' }, r.changes.slice(0, most).map((c) => Slip.line(c)), r.changes.length > most ? h('li', {}, `and ${r.changes.length - most} more`) : null);
    return h('section', { class: 'rest' }, h('h4', {}, 'If this is confirmed'), what, h('p', { class: 'soft' }, `${r.unchanged} unchanged. ${r.points}.`));
  },
};
