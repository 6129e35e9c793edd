// The engine in its worker. Calls wait for each other; stopping one ends the
// worker and starts a new one, which gets back the request that was on the desk.
class Stopped extends Error {}

class Engine {
  constructor() {
    this.calls = new Map();
    this.next = 1;
    this.module = null;
    this.onstage = () => {};
    this.onbusy = () => {};
    this.start();
  }

  start() {
    const url = URL.createObjectURL(new Blob([byId('worker').textContent], { type: 'text/javascript' }));
    this.worker = new Worker(url);
    URL.revokeObjectURL(url);
    this.worker.onmessage = ({ data }) => this.hear(data);
    this.worker.onerror = (e) => this.fail(e.message || 'the worker did not start');
    this.worker.postMessage({ start: this.module ? { module: this.module } : { engine: byId('engine').textContent } });
  }

  hear(data) {
    if (data.module) { this.module = data.module; performance.mark('weft-module'); return; }
    if (data.ready) { performance.mark('weft-ready'); return; }
    if (data.stage) { this.onstage(data.stage, data.done, data.of); return; }
    if (data.failed || data.ended) { this.fail(data.failed || 'the engine has ended'); return; }
    const call = this.calls.get(data.id);
    this.calls.delete(data.id);
    if (call) call.resolve(JSON.parse(data.reply));
    if (!this.calls.size) this.onbusy(false);
  }

  fail(why) {
    const calls = [...this.calls.values()];
    this.calls.clear();
    this.onbusy(false);
    for (const c of calls) c.reject(new Error(why));
  }

  // call asks for something. The reply has result, problems or fault.
  call(name, args) {
    return new Promise((resolve, reject) => {
      const id = this.next++;
      this.calls.set(id, { resolve, reject });
      this.onbusy(true);
      this.worker.postMessage({ id, name, args: args === undefined ? '' : JSON.stringify(args) });
    });
  }

  // stop ends whatever is being done.
  stop() {
    this.worker.terminate();
    const calls = [...this.calls.values()];
    this.calls.clear();
    this.onbusy(false);
    this.start();
    for (const c of calls) c.reject(new Stopped());
  }
}
