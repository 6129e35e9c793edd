// Printing: the weeks as they stand here, or a sheet made for paper.
const Print = {
  chooser() {
    const at = Weeks.at ? Weeks.at.date : '';
    const day = h('input', { type: 'date', id: 'print-date', value: at, required: true });
    Panel.show('Print', h('div', { class: 'field' }, h('label', { for: 'print-date' }, 'Date'), day, h('p', { class: 'soft' }, 'Whose month, week or session it is.')),
      h('ul', { class: 'menu' },
        App.choices.sheets.map((s) => choice(s.text, s.about, () => this.sheet(s.id, day.value))),
        choice('These weeks', 'All of them, as they stand on this page.', () => { Panel.close(); print(); })));
  },

  async sheet(id, date) {
    const r = await App.ask('sheet', { sheet: id, date });
    if (!r) return;
    Panel.close();
    const box = byId('sheets');
    box.innerHTML = r.html; // written by the library, which escapes what comes from the input
    box.hidden = false;
    document.body.classList.add('sheeted');
    print();
  },

  done() {
    document.body.classList.remove('sheeted');
    byId('sheets').hidden = true;
    fill(byId('sheets'));
  },
};
