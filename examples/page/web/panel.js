// The panel: beside the plan where there is room, over it on a small screen. It
// takes the focus when it opens and gives it back when it closes.
const Panel = {
  from: null,
  modal: false,
  shown: false,

  show(title, ...content) {
    const p = byId('panel');
    const head = h('div', { class: 'panel-head' }, h('h2', { id: 'panel-title', tabindex: '-1' }, title), button('Close', () => this.close(), { class: 'close' }));
    fill(p, head, h('div', { class: 'panel-body' }, content));
    if (!p.open) {
      this.from = document.activeElement;
      if (wide() && !this.modal) p.show(); else p.showModal();
      if (this.from && this.from.closest('#grid')) this.from.scrollIntoView({ block: 'nearest' }); // the plan makes room and moves
    }
    this.shown = true;
    p.scrollTop = 0;
    byId('panel-title').focus({ preventScroll: true });
  },

  // big asks for a modal panel, whatever the screen.
  big(title, ...content) {
    this.close();
    this.modal = true;
    byId('panel').classList.add('big');
    this.show(title, ...content);
  },

  close() {
    byId('panel').close();
    this.closed();
  },

  // closed tidies up, also where the browser has closed the panel.
  closed() {
    if (!this.shown || byId('panel').open) return; // reopened before the event came
    this.shown = false;
    this.modal = false;
    byId('panel').classList.remove('big');
    Game.forget();
    const back = this.from && this.from.isConnected ? this.from : byId('grid').querySelector('[data-stop][tabindex="0"]');
    if (back && back !== document.body) back.focus({ preventScroll: true });
    this.from = null;
  },
};
