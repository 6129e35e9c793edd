// Athlete, hours, places and rules, in plain words.
const Setup = {
  show(problems) {
    const s = App.view.settings;
    const form = h('form', { id: 'setup', novalidate: true }, this.trouble(problems), this.person(s), this.time(s), this.places(s), this.rules(s), Club.section(s), this.pins(),
      h('div', { class: 'row end' }, h('button', { type: 'submit', class: 'main' }, 'Plan with this'), button('Leave as it was', () => Panel.close())));
    form.addEventListener('submit', (e) => { e.preventDefault(); App.set(this.read(form)); });
    Panel.big('Athlete and rules', form);
  },

  // trouble lists what was wrong, and leads to the fields.
  trouble(problems) { return h('div', { id: 'setup-trouble', class: 'problems', role: 'alert' }, problems || []); },

  blame(problems) {
    const form = byId('setup');
    if (!form) return false;
    for (const e of form.querySelectorAll('[aria-invalid]')) { e.removeAttribute('aria-invalid'); e.removeAttribute('aria-describedby'); }
    const items = problems.map((p, i) => {
      const where = p.where.replace(/^\//, '').replace(/^(athlete|period)\//, '').replace(/^(club\/\d+)\/(minutes|from|to)$/, (_, a, b) => `${a}/${b === 'minutes' ? 'apart' : 'hours'}`);
      const field = [...form.querySelectorAll('[data-field]')].find((e) => e.dataset.field === where || where.startsWith(`${e.dataset.field}/`));
      if (field) { field.setAttribute('aria-invalid', 'true'); field.setAttribute('aria-describedby', `setup-problem-${i}`); const d = field.closest('details'); if (d) d.open = true; }
      return h('li', { id: `setup-problem-${i}` }, `${field && field.labels && field.labels[0] ? `${field.labels[0].textContent}: ` : p.where ? `${p.where}: ` : ''}${p.value ? `“${p.value}” ` : ''}${p.reason}${p.remedy ? `; ${p.remedy}` : ''}`);
    });
    fill(byId('setup-trouble'), h('p', {}, h('b', {}, 'Nothing was changed yet.')), h('ul', {}, items));
    const first = form.querySelector('[aria-invalid]');
    if (first) first.focus(); else byId('setup-trouble').scrollIntoView({ block: 'nearest' });
    return true;
  },

  field(name, label, value, props, hint) {
    const id = `set-${name.replace(/\W/g, '-')}`;
    return h('div', { class: 'field' }, h('label', { for: id }, label), h('input', { id, 'data-field': name, value, autocomplete: 'off', ...props }), hint ? h('p', { class: 'soft' }, hint) : null);
  },

  person(s) {
    const zones = h('datalist', { id: 'zones' }, App.choices.zones.map((z) => h('option', { value: z })));
    return h('fieldset', { class: 'group' }, h('legend', {}, 'The athlete'),
      h('p', { class: 'soft' }, 'No name, no address, no day of birth: a short mark is enough.'),
      h('div', { class: 'fields' },
        this.field('id', 'Mark', s.id, { maxlength: 60, spellcheck: 'false' }),
        this.field('born', 'Born, year and month', s.born, { placeholder: '2007-03', inputmode: 'numeric' }, 'Left empty: the safeguards of a young beginner.'),
        this.field('trainingAge', 'Training age, years', s.trainingAge, { inputmode: 'decimal' }, 'Years of regular supervised strength training.'),
        this.field('role', 'Role', s.role, { maxlength: 60 }),
        this.field('zone', 'Time zone', s.zone, { list: 'zones', spellcheck: 'false' }), zones),
      h('div', { class: 'checks' }, h('p', {}, 'Chosen by the athlete:'), App.choices.optIns.map((o) => h('label', {}, h('input', { type: 'checkbox', 'data-optin': o.id, checked: s.optIns.includes(o.id) }), o.text))));
  },

  time(s) {
    return h('fieldset', { class: 'group' }, h('legend', {}, 'Time'),
      h('div', { class: 'fields' },
        this.field('from', 'First date', s.from, { type: 'date' }), this.field('to', 'Last date', s.to, { type: 'date' }),
        this.field('now', 'It is now', s.now, { type: 'datetime-local' }, 'What began before it is past and stays. Left empty: nothing is past.')),
      this.field('hours', 'Hours there are', s.hours, { spellcheck: 'false' }, 'Such as: Mon-Fri 15:00-21:30; Sat, Sun 09:00-18:00. Left empty: the usual hours are assumed.'),
      this.field('prefer', 'Best start', s.prefer, { spellcheck: 'false' }, 'Such as: Mon-Fri 16:30; Sat, Sun 10:00'));
  },

  places(s) {
    const box = h('div', { class: 'places' });
    let n = 0;
    const add = (p) => {
      const i = n++;
      const row = h('fieldset', { class: 'place', 'data-place': String(i) }, h('legend', {}, p.id || 'Another place'),
        h('div', { class: 'fields' },
          this.field(`places/${i}/id`, 'Name', p.id, { maxlength: 60 }), this.field(`places/${i}/hours`, 'Open', p.hours, {}, 'Left empty: always.'),
          this.field(`places/${i}/closed`, 'Closed on', p.closed, {}, 'Such as: 2026-12-24 to 2026-12-26; 2027-01-01'),
          this.field(`places/${i}/kit`, 'Kit', p.kit, {}, 'Left empty: an ordinary gym. Such as: rack, bar 20 kg, discs 20 kg, dumbbells 4-30 kg by 2 kg')),
        h('label', { class: 'check' }, h('input', { type: 'checkbox', 'data-away': String(i), checked: p.away }), 'goes with the team: only at away games and on trips'),
        button('Take it out', () => row.remove()));
      box.append(row);
      return row;
    };
    s.places.forEach(add);
    return h('fieldset', { class: 'group' }, h('legend', {}, 'Places'), s.places.length ? null : h('p', { class: 'soft' }, 'None named: one ordinary gym, always open.'), box,
      button('Add a place', () => add({ id: '', hours: '', closed: '', kit: '', away: false }).querySelector('input').focus()));
  },

  rules(s) {
    const changed = new Map(s.rules.map((r) => [r.id, r]));
    const groups = [['limit', 'Limits: never broken'], ['aim', 'Aims: kept as well as can be'], ['fact', 'Numbers']];
    return h('fieldset', { class: 'group' }, h('legend', {}, 'Rules'),
      h('p', { class: 'soft' }, 'An empty field stands for the usual number. Safeguards of minors may be tightened freely; to loosen one, a named adult and a reason are needed, which are printed.'),
      groups.map(([kind, title]) => {
        const rows = App.choices.rules.filter((r) => r.kind === kind);
        const n = rows.filter((r) => changed.has(r.id)).length;
        return h('details', { open: n > 0 }, h('summary', {}, title, n ? h('span', { class: 'soft' }, `, ${n} changed`) : null), h('ul', { class: 'rules' }, rows.map((r) => this.rule(r, changed.get(r.id)))));
      }));
  },

  rule(r, c) {
    const id = `rule-${r.id}`;
    const of = c || { value: '', points: '', off: false, by: '', reason: '' };
    const parts = [];
    if (r.default !== '') {
      const shown = r.unit === 'clock minutes' ? '' : r.unit;
      parts.push(h('input', { id, 'data-field': `rules/${r.id}`, 'data-rule': r.id, 'data-part': 'value', value: of.value, placeholder: r.default, size: 6, title: `${r.min} to ${r.max}, usual ${r.default}. ${r.source}` }), h('span', {}, ` ${shown}`));
    }
    if (r.kind === 'aim') parts.push(h('input', { id: r.default === '' ? id : null, 'data-rule': r.id, 'data-part': 'points', 'data-field': r.default === '' ? `rules/${r.id}` : null, value: of.points, placeholder: String(r.points), size: 6, 'aria-label': `Points of: ${r.doc}` }), h('span', {}, ' points'));
    if (!r.fixed && r.kind !== 'fact') parts.push(h('label', { class: 'check' }, h('input', { type: 'checkbox', 'data-rule': r.id, 'data-part': 'off', checked: of.off, 'aria-label': `Off: ${r.doc}` }), 'off'));
    if (!parts.length) parts.push(h('span', { class: 'soft' }, 'always'));
    const adult = r.minors ? h('div', { class: 'adult' },
      h('label', {}, 'Adult who answers for it ', h('input', { 'data-rule': r.id, 'data-part': 'by', value: of.by, size: 16 })),
      h('label', {}, 'Reason ', h('input', { 'data-rule': r.id, 'data-part': 'reason', value: of.reason, size: 24 }))) : null;
    return h('li', { class: c ? 'changed' : null }, h(parts[0].tagName === 'INPUT' ? 'label' : 'span', { for: parts[0].tagName === 'INPUT' ? id : null, class: 'doc' }, sentence(r.doc).replace(/\.$/, ''), r.minors ? h('em', { class: 'tag' }, 'safeguard of minors') : null), h('div', { class: 'number-of' }, parts), adult);
  },

  pins() {
    const pins = App.view.pins;
    if (!pins.length) return null;
    return h('fieldset', { class: 'group' }, h('legend', {}, 'Fixed by choice'), h('ul', {}, pins.map((p) => h('li', {}, `${p.text} `, button('Give it up', () => { Panel.close(); App.propose('unpin', { index: p.index }); }, { 'aria-label': `Give up: ${p.text}` })))));
  },

  read(form) {
    const value = (name) => form.querySelector(`[data-field="${name}"]`).value.trim();
    const out = { optIns: [...form.querySelectorAll('[data-optin]:checked')].map((e) => e.dataset.optin), places: [], rules: [] };
    for (const name of ['id', 'born', 'trainingAge', 'role', 'zone', 'from', 'to', 'now', 'hours', 'prefer']) out[name] = value(name);
    // Problems name places by their order, so that fields are named anew.
    [...form.querySelectorAll('[data-place]')].forEach((row, i) => {
      const old = row.dataset.place;
      const get = (part) => { const e = row.querySelector(`[data-field="places/${old}/${part}"]`); return e; };
      const place = { away: row.querySelector('[data-away]').checked };
      for (const part of ['id', 'hours', 'closed', 'kit']) place[part] = get(part).value.trim();
      for (const part of ['id', 'hours', 'closed', 'kit']) get(part).dataset.field = `places/${i}/${part}`;
      row.dataset.place = String(i);
      out.places.push(place);
    });
    const rules = new Map();
    for (const e of form.querySelectorAll('[data-rule]')) {
      const r = rules.get(e.dataset.rule) || { id: e.dataset.rule, value: '', points: '', off: false, by: '', reason: '' };
      r[e.dataset.part] = e.type === 'checkbox' ? e.checked : e.value.trim();
      rules.set(e.dataset.rule, r);
    }
    out.club = Club.read(form);
    out.rules = [...rules.values()].filter((r) => r.value || r.points || r.off);
    return out;
  },
};
