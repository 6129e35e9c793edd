// Undo and redo: the requests that were on the desk, as texts, and what became of
// sessions on their day. The same request gives the same plan, so that nothing
// else has to be kept.
class History {
  constructor(most) {
    this.most = most;
    this.states = [];
    this.at = -1;
  }

  push(state) {
    if (this.at >= 0 && JSON.stringify(this.states[this.at]) === JSON.stringify(state)) return;
    this.states.splice(this.at + 1, Infinity, state);
    if (this.states.length > this.most) this.states.shift();
    this.at = this.states.length - 1;
  }

  get now() { return this.states[this.at] || null; }
  get canUndo() { return this.at > 0; }
  get canRedo() { return this.at < this.states.length - 1; }

  step(by) {
    const to = this.at + by;
    if (to < 0 || to >= this.states.length) return null;
    this.at = to;
    return this.states[to];
  }
}
