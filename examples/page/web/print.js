// Printing: the weeks as they stand here, or a sheet made for paper.
const Print = {
  chooser() {
    Panel.show('Print', h('ul', { class: 'choices' },
      h('li', {}, button('The weeks', () => { Panel.close(); print(); }), h('p', { class: 'soft' }, 'As they stand on this page.')),
      (App.choices.sheets || []).map((s) => h('li', {}, button(s.text, () => this.sheet(s.id))))));
  },

  async sheet(id) {
    const r = await App.ask('sheet', { sheet: id });
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
