// A game: what is known of it, and moving it. A move is shown as a slip first.
const Game = {
  wish: null, // {id, to}: where somebody wants it, while arrow keys are pressed
  timer: 0,

  item(id) { return App.item('game', id); },

  show(id) {
    const it = this.item(id);
    const [date, clock] = it.wall.split('T');
    const day = h('input', { type: 'date', id: 'move-date', value: date, required: true });
    const time = h('input', { type: 'time', id: 'move-time', value: clock || '', step: 60 });
    const form = h('form', { class: 'move' },
      h('label', { for: 'move-date' }, 'Date'), day, h('label', { for: 'move-time' }, 'Start, by the clock where it is played'), time,
      h('div', { class: 'row' },
        button('A day earlier', () => { day.value = shiftDate(day.value, -1); }), button('A day later', () => { day.value = shiftDate(day.value, 1); })),
      h('button', { type: 'submit', class: 'main' }, 'Show what changes'));
    form.addEventListener('submit', (e) => { e.preventDefault(); this.move(id, time.value ? `${day.value}T${time.value}` : day.value); });
    const others = h('div', { class: 'row' },
      it.off ? null : button('Postponed', () => App.propose('move', { id, do: 'postpone' })),
      it.off ? null : button('Cancelled', () => App.propose('move', { id, do: 'cancel' })),
      it.state === 'confirmed' ? null : button('Confirmed', () => App.propose('move', { id, do: 'confirm' })));
    Panel.show(`${it.title} ${it.text}`.trim(), h('p', { class: 'lead' }, [`${App.dayOf('game', id).title} ${it.when}`, it.there, it.place].filter(Boolean).join(' · ')),
      it.movable ? h('section', {}, h('h3', {}, 'Move it'), form) : h('p', { class: 'soft' }, 'It is past or called off for good, and stays.'),
      it.movable ? h('section', {}, h('h3', {}, 'Or it is'), others) : null);
  },

  move(id, to) { return App.propose('move', { id, do: 'move', to }); },

  toDate(id, date) {
    const clock = this.item(id).wall.split('T')[1];
    this.move(id, clock ? `${date}T${clock}` : date);
  },

  // nudge moves the wish by days and minutes; the slip follows when the keys rest.
  nudge(id, days, minutes) {
    const it = this.item(id);
    if (!it.movable) { say('This game stays: it is past or called off.'); return; }
    const from = this.wish && this.wish.id === id ? this.wish.to : it.wall;
    if (minutes && !from.includes('T')) return;
    this.wish = { id, to: shiftWall(from, days, minutes) };
    say(`${it.title} ${it.text} to ${this.wish.to.replace('T', ' ')}`);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.move(id, this.wish.to), 350);
  },

  // arrow is what an arrow key with Shift does to a game.
  arrow(e, id) {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -15], ArrowDown: [0, 15] }[e.key];
    if (!by) return;
    e.preventDefault();
    this.nudge(id, ...by);
  },

  forget() { this.wish = null; clearTimeout(this.timer); },
};

// Dates and times of the page are texts, counted without any zone.
const shiftWall = (wall, days, minutes) => {
  const t = new Date(`${wall.includes('T') ? wall : `${wall}T00:00`}:00Z`);
  t.setUTCMinutes(t.getUTCMinutes() + days * 1440 + minutes);
  return t.toISOString().slice(0, wall.includes('T') ? 16 : 10);
};
const shiftDate = (date, days) => (date ? shiftWall(date, days, 0) : date);

// The slip of a change, before it is accepted.
const Slip = {
  line(c) { return h('li', {}, h('b', { class: 'tag' }, c.change), ` ${c.text}`, c.why ? h('div', { class: 'soft' }, c.why) : null); },

  show(s) {
    const lines = s.changes.map((c) => this.line(c));
    const yes = button('Accept', () => App.accept(), { class: 'main', id: 'slip-accept' });
    Panel.show('Change slip', h('p', { class: 'lead' }, s.news),
      list(s.problems, { class: 'problems' }),
      s.changes.length ? h('ul', { class: 'slip' }, lines) : h('p', {}, 'No session changes.'),
      h('p', { class: 'soft' }, `${s.unchanged} ${s.unchanged === 1 ? 'session' : 'sessions'} unchanged. ${s.points}.`),
      h('div', { class: 'row' }, yes, button('Discard', () => App.discard(), { id: 'slip-discard' })));
    yes.focus();
    say(`${s.news}. ${s.changes.length} ${s.changes.length === 1 ? 'session changes' : 'sessions change'}.`);
  },
};
