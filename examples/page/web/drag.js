// Drag moves a game to another date, by mouse, pen or finger. A finger has to rest
// on it a moment first, so that the page can still be scrolled.
const Drag = {
  at: null, // {id, name, touch, x, y, on, over, ghost, timer}
  rest: 350, // milliseconds a finger rests
  slack: 8, // pixels that are no movement yet

  games(grid) {
    grid.addEventListener('pointerdown', (e) => this.down(e));
    grid.addEventListener('contextmenu', (e) => { if (this.at && this.at.touch) e.preventDefault(); });
    grid.addEventListener('click', (e) => { if (this.moved) { e.preventDefault(); e.stopPropagation(); } this.moved = false; }, true);
    if (this.wired) return;
    this.wired = true;
    addEventListener('pointermove', (e) => this.move(e));
    addEventListener('pointerup', (e) => this.up(e));
    addEventListener('pointercancel', () => this.end());
    addEventListener('touchmove', (e) => { if (this.at && this.at.on && e.cancelable) e.preventDefault(); }, { passive: false });
    addEventListener('keydown', (e) => { if (e.key === 'Escape' && this.at) { this.moved = this.at.on; this.end(); } });
  },

  down(e) {
    this.moved = false;
    const item = e.target.closest('[data-movable]');
    if (!item || !e.isPrimary || e.button !== 0) return;
    const touch = e.pointerType === 'touch';
    this.at = { id: item.dataset.id, name: item.querySelector('.what').textContent.trim(), touch, x: e.clientX, y: e.clientY };
    if (item.hasPointerCapture && item.hasPointerCapture(e.pointerId)) item.releasePointerCapture(e.pointerId);
    if (touch) this.at.timer = setTimeout(() => { if (this.at) this.begin(); }, this.rest);
  },

  begin() {
    const a = this.at;
    a.on = true;
    a.ghost = h('div', { class: 'ghost', 'aria-hidden': 'true' });
    document.body.append(a.ghost);
    document.body.classList.add('dragging');
    this.show(a.x, a.y);
  },

  move(e) {
    const a = this.at;
    if (!a || !e.isPrimary) return;
    const far = Math.hypot(e.clientX - a.x, e.clientY - a.y) > this.slack;
    if (!a.on) {
      if (!far) return;
      if (a.touch) { this.end(); return; } // the finger scrolls
      this.begin();
    }
    e.preventDefault();
    this.show(e.clientX, e.clientY);
  },

  // show follows the pointer: what is moved, and the date below it.
  show(x, y) {
    const a = this.at;
    a.now = [x, y];
    const under = document.elementFromPoint(x, y);
    const cell = under && under.closest('#grid [data-date]');
    if (cell !== a.over) {
      if (a.over) a.over.classList.remove('over');
      a.over = cell;
      if (cell) cell.classList.add('over');
    }
    const day = cell && App.day(cell.dataset.date);
    a.ghost.textContent = day ? `${a.name}: ${day.title}` : a.name;
    a.ghost.style.translate = `${Math.max(0, Math.min(x + 12, innerWidth - a.ghost.offsetWidth - 4))}px ${Math.max(0, y - 44)}px`;
    this.scroll(y);
  },

  // scroll goes on as long as the pointer is near an edge.
  scroll(y) {
    const by = y < 90 ? -12 : y > innerHeight - 60 ? 12 : 0;
    if (!by || this.at.scrolling) return;
    this.at.scrolling = true;
    requestAnimationFrame(() => {
      if (!this.at || !this.at.on) return;
      this.at.scrolling = false;
      scrollBy(0, by);
      this.show(...this.at.now);
    });
  },

  up(e) {
    const a = this.at;
    if (!a || !e.isPrimary) return;
    const to = a.on && a.over ? a.over.dataset.date : '';
    this.moved = !!a.on;
    this.end();
    if (to && to !== App.dayOf('game', a.id).date) Game.toDate(a.id, to);
  },

  end() {
    const a = this.at;
    this.at = null;
    if (!a) return;
    clearTimeout(a.timer);
    if (a.ghost) a.ghost.remove();
    if (a.over) a.over.classList.remove('over');
    document.body.classList.remove('dragging');
  },
};
