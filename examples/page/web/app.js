// The page as a whole: what is shown, and what happens when something is done.
const App = {
  engine: null,
  choices: null,
  view: null,
  history: new History(40),

  async start() {
    this.engine = new Engine();
    this.engine.onbusy = (busy) => this.busy(busy);
    this.engine.onstage = (what, done, of) => this.stage(what, done, of);
    this.wire();
    const choices = this.engine.call('choices');
    await this.demo();
    try { this.choices = (await choices).result; } catch (e) { /* told already */ }
  },

  wire() {
    byId('do-open').addEventListener('click', () => Files.show());
    byId('do-setup').addEventListener('click', () => { if (this.view) Setup.show(); });
    byId('do-save').addEventListener('click', () => { if (this.view) Files.chooser(); });
    byId('do-print').addEventListener('click', () => { if (this.view) Print.chooser(); });
    byId('do-undo').addEventListener('click', () => this.step(-1));
    byId('do-redo').addEventListener('click', () => this.step(1));
    byId('do-cancel').addEventListener('click', () => this.stop());
    byId('skip').addEventListener('click', (e) => { e.preventDefault(); setTimeout(() => this.toPlan()); }); // later: the rest of the key press is not for what gets the focus
    byId('panel').addEventListener('close', () => Panel.closed());
    byId('strip').addEventListener('click', (e) => this.fromStrip(e));
    addEventListener('keydown', (e) => this.key(e));
    addEventListener('afterprint', () => Print.done());
    Files.drops();
  },

  toPlan() {
    const stop = byId('grid').querySelector('[data-stop][tabindex="0"]');
    (stop || byId('plan')).focus();
  },

  key(e) {
    const typing = e.target.closest && e.target.closest('input, textarea, select');
    if (e.key === 'Escape' && byId('panel').open && !byId('panel').matches(':modal')) { e.preventDefault(); Panel.close(); }
    if (e.shiftKey && !typing && Game.wish && e.target.closest && e.target.closest('#panel')) Game.arrow(e, Game.wish.id); // on from the slip
    if (!(e.ctrlKey || e.metaKey) || typing) return;
    const k = e.key.toLowerCase();
    if (k === 'z' && !e.shiftKey) { e.preventDefault(); this.step(-1); }
    if (k === 'y' || (k === 'z' && e.shiftKey)) { e.preventDefault(); this.step(1); }
  },

  // busy shows, after a moment, that something is being done.
  busy(busy) {
    clearTimeout(this.busyTimer);
    if (!busy || byId('busy').hidden) byId('busy-bar').removeAttribute('value');
    if (!busy) { byId('busy').hidden = true; document.body.removeAttribute('aria-busy'); return; }
    this.busyTimer = setTimeout(() => { byId('busy').hidden = false; document.body.setAttribute('aria-busy', 'true'); }, 150);
  },

  // stage says what is being done, and how far it is where somebody knows.
  stage(what, done, of) {
    const bar = byId('busy-bar');
    byId('busy-text').textContent = sentence(what).replace(/\.$/, '') + (of && of < 1000 ? `, ${done} of ${of}` : '');
    if (of) { bar.max = of; bar.value = done; } else bar.removeAttribute('value');
  },

  async stop() {
    this.engine.stop();
    say('Stopped.');
    if (this.history.now) await this.engine.call('restore', this.history.now).catch(() => {});
  },

  // ask returns the result of a call, or tells what is wrong and returns null.
  async ask(name, args, told) {
    let r;
    try {
      r = await this.engine.call(name, args);
    } catch (e) {
      if (!(e instanceof Stopped)) this.trouble([{ class: 'fault', reason: e.message, remedy: 'reload the page' }]);
      return null;
    }
    if (r.problems) { if (!told || !told(r.problems)) this.trouble(r.problems); return null; }
    if (r.fault) { this.trouble([{ class: 'fault', reason: r.fault, remedy: 'this is a fault of the program, not of the input' }]); return null; }
    return r.result;
  },

  trouble(problems) {
    const box = byId('trouble');
    fill(box, h('div', { class: 'bar' }, h('h2', { id: 'trouble-title' }, 'Nothing was changed'), button('Close', () => { box.hidden = true; })),
      h('ul', { class: 'problems' }, problems.map((p) => h('li', {}, h('b', { class: 'tag' }, p.class), p.where ? h('code', {}, p.where) : null, p.value ? ` “${p.value}”` : '', ` ${p.reason}`, p.remedy ? h('span', { class: 'soft' }, ` ${sentence(p.remedy)}`) : null))));
    box.hidden = false;
    Panel.close();
    box.focus();
    box.scrollIntoView({ block: 'nearest' });
  },

  async demo() { return this.settle(await this.ask('demo')); },

  async openFiles(files, options) {
    const large = files.filter((f) => f.large);
    if (large.length) { this.trouble(large.map((f) => ({ class: 'error', where: f.name, reason: 'the file has more than 64 MB', remedy: 'give a smaller one' }))); return; }
    const v = await this.ask('open', { ...options, files: files.map(({ name, text }) => ({ name, text })) });
    if (v) { Panel.close(); await this.settle(v); say(`Opened. ${v.plan.counts}.`); }
  },

  async set(settings) {
    const v = await this.ask('set', settings, (problems) => Setup.blame(problems));
    if (v) { Panel.close(); await this.settle(v); say(`Planned again. ${v.plan.counts}.`); }
  },

  async propose(call, args) {
    const s = await this.ask(call, args);
    if (s) Slip.show(s);
  },

  async accept(told) {
    const v = await this.ask('accept');
    if (!v) return;
    Panel.close();
    await this.settle(v);
    say(told || 'Accepted.');
  },

  async discard() {
    Panel.close();
    await this.ask('discard');
    say('Discarded.');
  },

  async step(by) {
    const state = this.history.step(by);
    if (!state) return;
    Panel.close();
    const v = await this.ask('restore', state);
    if (v) { this.show(v); this.tools(); this.explain(v); say(by < 0 ? 'Undone.' : 'Done again.'); }
  },

  // settle shows a plan that is on the desk now, and remembers its request.
  async settle(view) {
    if (!view) return;
    byId('trouble').hidden = true;
    this.show(view);
    const saved = await this.ask('save');
    if (saved) this.history.push({ request: saved.text, invented: view.invented, days: saved.days || [] });
    this.tools();
    await this.explain(view);
  },

  tools() {
    byId('do-undo').disabled = !this.history.canUndo;
    byId('do-redo').disabled = !this.history.canRedo;
  },

  show(view) {
    this.view = view;
    const p = view.plan;
    byId('invented').hidden = !view.invented;
    byId('who').textContent = `${p.athlete} · ${p.period} · ${p.zone}`;
    document.documentElement.dataset.plan = p.id;
    const refused = p.outcome === 'refused';
    const proof = refused ? 'Nothing may be planned; see the notes below.' : p.proof === 'proved' ? `Proved: of the starts considered no plan misses less (${p.points} points).` : `The best found; no plan has fewer than ${p.bound} points, this one ${p.points}.`;
    fill(byId('summary'), h('p', { class: 'lead' }, p.counts), h('p', { class: 'soft' }, `${p.games} games. ${proof}`, p.broken ? ` ${p.broken} limits broken by choices or the past.` : ''),
      h('p', { class: 'soft id' }, `Plan ${p.id}, revision ${p.revision} · rules ${p.rules}, engine ${p.engine}`));
    byId('season').hidden = !view.strip;
    byId('strip').innerHTML = view.strip; // written by the library, which escapes what comes from the input
    Weeks.show(view);
    this.notes(view);
    byId('missed').hidden = true;
    performance.mark('weft-plan');
  },

  notes(view) {
    const box = byId('notes');
    const all = [...view.notes.map((n) => [n.class, n.text]), ...(view.read || []).map((p) => [p.class, `${p.where ? `${p.where}: ` : ''}${p.reason}${p.remedy ? `; ${p.remedy}` : ''}`])];
    const seen = new Set();
    const some = all.filter(([c, t]) => !seen.has(t) && seen.add(t));
    box.hidden = !some.length;
    fill(box, h('h2', { id: 'notes-title' }, 'Questions and notes'), h('ul', { class: 'problems' }, some.map(([c, t]) => h('li', {}, h('b', { class: 'tag' }, c), ` ${t}`))));
  },

  // explain adds, once the plan is seen, what takes longer than planning.
  async explain(view) {
    const e = await this.ask('explain');
    if (!e || this.view !== view) return;
    const box = byId('missed');
    box.hidden = false;
    const sum = e.missed.length ? `${e.missed.length} ${e.missed.length === 1 ? 'aim' : 'aims'} not kept, and what stood in the way` : 'Every aim is kept';
    const row = (m) => h('li', {}, button(m.dates, () => this.open('date', m.date), { class: 'link' }), h('span', {}, ` ${m.text}`), h('span', { class: 'price' }, `${m.points} ${m.points === 1 ? 'point' : 'points'}`), list(m.inWay, { class: 'soft' }));
    const first = 6; // the dearest come first
    fill(box, h('h2', { id: 'missed-title' }, sum), e.missed.length ? h('ol', { class: 'missed' }, e.missed.slice(0, first).map(row)) : null,
      e.missed.length > first ? h('details', {}, h('summary', {}, `${e.missed.length - first} more`), h('ol', { class: 'missed', start: first + 1 }, e.missed.slice(first).map(row))) : null);
    performance.mark('weft-explained');
  },

  fromStrip(e) {
    const at = e.target.closest('[data-session], [data-event], [data-date]');
    if (!at) return;
    const cell = e.target.closest('[data-date]');
    const date = cell && cell.dataset.date;
    if (date) { const s = Weeks.find(date, 1); if (s) Weeks.stopAt(s); const c = byId('grid').querySelector(`[data-date="${date}"]`); if (c) c.scrollIntoView({ block: 'center', behavior: calm() ? 'auto' : 'smooth' }); }
    if (at.dataset.session) this.open('session', at.dataset.session);
    else if (at.dataset.event) this.open('game', at.dataset.event);
    else if (date) this.open('date', date);
  },

  open(type, id) {
    Weeks.asked(type === 'date' ? id : (this.dayOf(type, id) || {}).date, type, id);
    if (type === 'session') return About.session(id);
    if (type === 'game') return Game.show(id);
    return About.date(id);
  },

  item(type, id) {
    for (const w of this.view.weeks) for (const d of w.days) for (const it of d.items || []) if (it.type === type && it.id === id) return it;
    return null;
  },

  day(date) {
    for (const w of this.view.weeks) for (const d of w.days) if (d.date === date) return d;
    return null;
  },

  dayOf(type, id) {
    for (const w of this.view.weeks) for (const d of w.days) for (const it of d.items || []) if (it.type === type && it.id === id) return d;
    return null;
  },
};

// What tests and the curious may reach; nothing of the page depends on it.
window.weft = { App, Panel, Files, Setup, Print };
App.start();
