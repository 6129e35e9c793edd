// The weeks: a grid of dates, with one stop for the Tab key and arrow keys inside.
const Weeks = {
  at: null, // {date, n}: the element that has the stop

  show(view) {
    const kept = this.at && document.activeElement && byId('grid').contains(document.activeElement);
    let month = '';
    const months = [];
    const rows = view.weeks.map((w) => {
      const row = this.week(w, view);
      if (w.month !== month) {
        month = w.month;
        months.push(button(w.month.slice(0, 3), () => row.scrollIntoView({ block: 'start', behavior: calm() ? 'auto' : 'smooth' })));
      }
      return row;
    });
    const head = h('div', { role: 'row', class: 'days heads' }, view.weeks[0].days.map((d) => h('div', { role: 'columnheader' }, d.weekday)));
    const grid = h('div', { role: 'grid', 'aria-labelledby': 'plan-title', 'aria-describedby': 'plan-hint' }, h('div', { role: 'rowgroup' }, head), rows);
    grid.addEventListener('keydown', (e) => this.key(e));
    grid.addEventListener('focusin', (e) => this.stopAt(e.target.closest('[data-stop]')));
    grid.addEventListener('click', (e) => this.click(e));
    Drag.games(grid);
    fill(byId('grid'), grid);
    fill(byId('months'), months);
    byId('plan').hidden = false;
    const stop = (this.at && this.find(this.at.date, this.at.n)) || grid.querySelector('[data-stop]');
    this.stopAt(stop);
    if (kept && stop) stop.focus();
  },

  week(w, view) {
    const head = h('div', { class: 'week-head', role: 'row' }, h('div', { role: 'rowheader', 'aria-colspan': 7 },
      h('b', {}, `Week ${w.number}`), h('span', {}, w.title), h('span', { class: 'soft' }, w.summary)));
    return h('div', { role: 'rowgroup', class: 'week' }, head, h('div', { role: 'row', class: 'days' }, w.days.map((d) => this.day(d, view))));
  },

  day(d, view) {
    if (!d.in) return h('div', { role: 'gridcell', class: 'day out' }, h('span', { class: 'number' }, String(d.number)));
    const marks = d.marks || [];
    const items = d.items || [];
    const cls = ['day', d.past ? 'past' : '', items.length ? '' : 'empty', ...marks.map((m) => `is-${m.replace(' ', '-')}`)].join(' ');
    const about = items.length ? '' : ', nothing planned';
    return h('div', { role: 'gridcell', class: cls, 'data-date': d.date },
      h('div', { class: 'day-head' },
        h('button', { type: 'button', class: 'number', 'data-stop': '0', tabindex: -1, 'data-ask': d.date, 'aria-label': `${d.title}${about}: what else could be here` },
          h('span', { class: 'weekday' }, `${d.weekday} `), String(d.number)),
        marks.length ? h('span', { class: 'marks' }, marks.join(', ')) : null),
      items.map((it, i) => this.item(it, i + 1, d)));
  },

  item(it, n, d) {
    if (it.type === 'held') {
      return h('p', { class: 'item held' }, h('span', { class: 'time' }, it.when), h('span', { class: 'what' }, stateMark('held'), h('b', {}, it.title)), h('span', { class: 'became' }, 'held'));
    }
    if (it.type === 'event' || it.type === 'closed') {
      return h('p', { class: `item plain${it.off ? ' off' : ''}` }, h('span', { class: 'time' }, it.when), h('span', {}, it.title + (it.text ? `: ${it.text}` : '')));
    }
    const notes = [it.there, it.type === 'game' ? it.place : '', it.pinned ? 'fixed by choice' : ''].filter(Boolean).join(', ');
    const became = it.type === 'session' && it.state !== 'as written' ? [it.state, it.became].filter(Boolean) : [];
    return h('button', {
      type: 'button', class: `item ${it.type}${it.off ? ' off' : ''}${it.important ? ' important' : ''}${it.became ? ' changed' : ''}`, tabindex: -1, 'data-stop': String(n),
      'data-open': it.type, 'data-id': it.id, 'data-movable': it.movable, title: it.type === 'session' ? it.text : null,
    },
    h('span', { class: 'unseen' }, `${d.title}, `),
    h('span', { class: 'time' }, it.when),
    h('span', { class: 'what' }, mark(it), h('b', {}, it.title), it.type === 'game' && it.text ? ` ${it.text}` : ''),
    notes ? h('span', { class: 'soft' }, notes) : null,
    became.length ? h('span', { class: 'became' }, became.map((w, i) => [i ? ', ' : '', stateMark(w), w])) : null,
    it.type === 'session' && it.text ? h('span', { class: 'why' }, it.text) : null);
  },

  find(date, n) {
    const cell = byId('grid').querySelector(`[data-date="${date}"]`);
    if (!cell) return null;
    return cell.querySelector(`[data-stop="${n}"]`) || cell.querySelector('[data-stop]');
  },

  stopAt(e) {
    if (!e) return;
    for (const old of byId('grid').querySelectorAll('[data-stop][tabindex="0"]')) old.tabIndex = -1;
    e.tabIndex = 0;
    this.at = { date: e.closest('[data-date]').dataset.date, n: e.dataset.stop };
  },

  click(e) {
    const open = e.target.closest('[data-open]');
    if (open) { this.stopAt(open); App.open(open.dataset.open, open.dataset.id); return; }
    const cell = e.target.closest('[data-date]');
    if (cell && !e.target.closest('.item')) { this.stopAt(this.find(cell.dataset.date, 0)); App.open('date', cell.dataset.date); }
  },

  key(e) {
    const here = e.target.closest('[data-stop]');
    if (!here || e.ctrlKey || e.metaKey || e.altKey) return;
    const cell = here.closest('[data-date]');
    const stops = [...cell.querySelectorAll('[data-stop]')];
    const n = stops.indexOf(here);
    const cells = [...byId('grid').querySelectorAll('[data-date]')];
    const at = cells.indexOf(cell);
    const go = (to, last) => {
      const c = cells[Math.max(0, Math.min(cells.length - 1, to))];
      const all = c.querySelectorAll('[data-stop]');
      return all[last ? all.length - 1 : Math.min(all.length - 1, to === at ? 0 : 1)] || all[0];
    };
    if (e.shiftKey) {
      if (here.dataset.open === 'game') Game.arrow(e, here.dataset.id);
      return;
    }
    let to = null;
    switch (e.key) {
      case 'ArrowLeft': to = go(at - 1); break;
      case 'ArrowRight': to = go(at + 1); break;
      case 'ArrowDown': to = n + 1 < stops.length ? stops[n + 1] : go(at + 7); break;
      case 'ArrowUp': to = n > 0 ? stops[n - 1] : go(at - 7, true); break;
      case 'Home': to = go(at - (at % 7)); break;
      case 'End': to = go(at + 6 - (at % 7)); break;
      case 'PageDown': to = go(at + 28); break;
      case 'PageUp': to = go(at - 28); break;
      default: return;
    }
    e.preventDefault();
    to.focus();
  },

  // asked marks what the panel is about, until it is about something else.
  asked(date, type, id) {
    for (const e of byId('grid').querySelectorAll('.asked')) e.classList.remove('asked');
    const cell = date && byId('grid').querySelector(`[data-date="${date}"]`);
    if (!cell) return;
    const item = [...cell.querySelectorAll('[data-open]')].find((e) => e.dataset.open === type && e.dataset.id === id);
    (item || cell).classList.add('asked');
  },
};
