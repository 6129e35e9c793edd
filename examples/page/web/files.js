// Files: opened, dropped or pasted; and saved, when asked.
const mostBytes = 64 * 1024 * 1024;

const Files = {
  show() {
    const pick = h('input', { type: 'file', id: 'open-files', multiple: true, accept: '.ics,.csv,.json,text/calendar,text/csv,application/json' });
    const text = h('textarea', { id: 'open-text', rows: 6, spellcheck: 'false', placeholder: 'date,time,tz,opponent,home_away\n2027-02-13,15:40,Europe/Berlin,…' });
    const team = h('input', { id: 'open-team', autocomplete: 'off' });
    const zone = h('input', { id: 'open-zone', list: 'open-zones', autocomplete: 'off', placeholder: 'Europe/Berlin' });
    const fresh = h('input', { type: 'checkbox', id: 'open-fresh' });
    const options = () => ({ team: team.value.trim(), zone: zone.value.trim(), fresh: fresh.checked });
    const form = h('form', { class: 'open' },
      h('p', {}, 'A calendar (.ics), a table (.csv) or a saved request (.json). Files can also be dropped anywhere on the page. They are read here and go nowhere.'),
      h('label', { for: 'open-files' }, 'Files'), pick,
      h('label', { for: 'open-text' }, 'Or paste the text of one'), text,
      h('div', { class: 'fields' },
        h('div', { class: 'field' }, h('label', { for: 'open-zone' }, 'Time zone'), zone, h('p', { class: 'soft' }, 'Of rows that name none.')),
        h('div', { class: 'field' }, h('label', { for: 'open-team' }, 'Team'), team, h('p', { class: 'soft' }, 'Only for the table of a whole league.'))),
      h('datalist', { id: 'open-zones' }, App.choices.zones.map((z) => h('option', { value: z }))),
      App.view && !App.view.invented ? h('label', { class: 'check' }, fresh, 'begin anew, with nothing of what is here') : null,
      h('div', { class: 'row end' }, h('button', { type: 'submit', class: 'main' }, 'Plan with it'), button('The invented example', () => App.demo())));
    form.addEventListener('submit', async (e) => {
      e.preventDefault();
      const files = await this.read([...pick.files]);
      if (text.value.trim()) files.push({ name: '', text: text.value });
      App.openFiles(files, options());
    });
    Panel.big('Open or paste', form);
  },

  // read reads files as texts; one that is too large is refused unread.
  async read(files) {
    const out = [];
    for (const f of files) out.push({ name: f.name, text: f.size > mostBytes ? '' : await f.text(), large: f.size > mostBytes });
    return out;
  },

  // drops takes files dropped anywhere on the page.
  drops() {
    const hasFiles = (e) => e.dataTransfer && [...e.dataTransfer.types].includes('Files');
    addEventListener('dragover', (e) => { if (hasFiles(e)) { e.preventDefault(); document.body.classList.add('dropping'); } });
    addEventListener('dragleave', (e) => { if (!e.relatedTarget) document.body.classList.remove('dropping'); });
    addEventListener('drop', async (e) => {
      document.body.classList.remove('dropping');
      if (!hasFiles(e)) return;
      e.preventDefault();
      App.openFiles(await this.read([...e.dataTransfer.files]), {});
    });
    addEventListener('paste', (e) => {
      if (e.target.closest && e.target.closest('input, textarea, select, [contenteditable]')) return;
      const files = [...(e.clipboardData ? e.clipboardData.files : [])];
      const text = e.clipboardData ? e.clipboardData.getData('text/plain') : '';
      if (files.length) this.read(files).then((f) => App.openFiles(f, {}));
      else if (text.trim()) App.openFiles([{ name: '', text }], {});
    });
  },

  save(name, text, type) {
    const url = URL.createObjectURL(new Blob([text], { type }));
    const a = h('a', { href: url, download: name });
    document.body.append(a);
    a.click();
    a.remove();
    setTimeout(() => URL.revokeObjectURL(url), 10000);
  },

  chooser() {
    Panel.show('Save', h('ul', { class: 'menu' },
      choice('The request', 'All that the plan is made from, to go on another day. It holds what was set here, and no report of a sore spot.', () => this.saveRequest()),
      choice('The plan', 'For other programs: the same bytes that the library and the command-line program write.', () => this.savePlan())));
  },

  async saveRequest() {
    const r = await App.ask('save');
    if (r) this.save(r.name, r.text, 'application/json');
  },

  async savePlan() {
    const r = await App.ask('plan');
    if (r) this.save(r.name, r.text, 'application/json');
  },
};
