// The club's own rules: those there are in plain words, and new ones of simple
// shapes.
const Club = {
  n: 0,

  section(s) {
    const rows = h('ul', { class: 'club' }, s.club.map((r) => this.kept(r)));
    const none = h('p', { class: 'soft' }, 'None.');
    none.hidden = s.club.length > 0;
    const add = button('Add a rule', () => { const row = this.fresh(); rows.append(row); none.hidden = true; row.querySelector('select').focus(); }, { id: 'club-add' });
    return h('fieldset', { class: 'group' }, h('legend', {}, 'Rules of this club'),
      h('p', { class: 'soft' }, 'Planned with as exactly as the others. Without points a rule is a limit, which no plan breaks; with points it is an aim.'), none, rows, add);
  },

  kept(r) {
    const row = h('li', { 'data-club': r.id }, h('p', {}, r.text), button('Take it out', () => row.remove(), { 'aria-label': `Take it out: ${r.text}` }));
    return row;
  },

  // fresh is the form of a new rule; which fields it has hangs on its shape.
  fresh() {
    const n = this.n++;
    const id = (part) => `club-new-${n}-${part}`;
    const field = (part, label, props, hint) => h('div', { class: 'field', 'data-part-of': part }, h('label', { for: id(part) }, label),
      h('input', { id: id(part), 'data-club-part': part, ...props }), hint ? h('p', { class: 'soft' }, hint) : null);
    const shape = h('select', { id: id('shape'), 'data-club-part': 'shape' }, App.choices.shapes.map((s) => h('option', { value: s.id }, sentence(s.text).replace(/\.$/, ''))));
    const after = h('select', { id: id('after'), 'data-club-part': 'after' }, App.choices.events.map((e) => h('option', { value: e.id }, e.text)));
    const number = { inputmode: 'numeric', size: 6 };
    const row = h('li', { 'data-club': '' },
      h('fieldset', {}, h('legend', { class: 'unseen' }, 'A new rule'),
        h('div', { class: 'fields' },
          h('div', { class: 'field' }, h('label', { for: id('shape') }, 'What it says'), shape),
          field('says', 'In your own words', { maxlength: 80 }, 'Printed where it stands in the way. Such as: the hall is let.'),
          field('most', 'At most', number), field('least', 'At least on', number), field('dates', 'Of so many dates', number),
          h('div', { class: 'field', 'data-part-of': 'after' }, h('label', { for: id('after') }, 'Event'), after),
          field('apart', 'Hours', number),
          field('days', 'Days', { spellcheck: 'false' }, 'Such as: Mon-Fri. Left empty: every day.'),
          field('hours', 'Time of day', { spellcheck: 'false' }, 'Such as: 18:00-24:00. Left empty: any.'),
          field('points', 'Points', number, 'Left empty: a limit.')),
        h('div', { class: 'checks across' }, h('p', { class: 'soft' }, 'Of which sessions; none ticked: of all.'),
          App.choices.kinds.map((k) => h('label', {}, h('input', { type: 'checkbox', 'data-club-kind': k.id }), k.text)))),
      button('Take it out', () => row.remove()));
    const fit = () => {
      const parts = App.choices.shapes.find((s) => s.id === shape.value).parts || [];
      for (const e of row.querySelectorAll('[data-part-of]')) {
        const p = e.dataset.partOf;
        e.hidden = !['says', 'days', 'hours'].includes(p) && !parts.includes(p) && !parts.includes(`${p}!`);
      }
      const hint = row.querySelector('[data-part-of="points"] .soft');
      hint.textContent = parts.includes('points!') ? 'What each time costs; 120 is a second full-body session of a week.' : 'Left empty: a limit.';
    };
    shape.addEventListener('change', fit);
    fit();
    return row;
  },

  // read names the fields by the order of the rules, as problems do.
  read(form) {
    return [...form.querySelectorAll('[data-club]')].map((row, i) => {
      if (row.dataset.club) return { id: row.dataset.club };
      const out = { id: '', kinds: [...row.querySelectorAll('[data-club-kind]:checked')].map((e) => e.dataset.clubKind) };
      for (const e of row.querySelectorAll('[data-club-part]')) {
        out[e.dataset.clubPart] = e.value.trim();
        e.dataset.field = `club/${i}/${e.dataset.clubPart}`;
      }
      return out;
    });
  },
};
