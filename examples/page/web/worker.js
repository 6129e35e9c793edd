// The worker: runs the engine, one call after the other, away from the page.
const bytesOf = (base64) => {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
};

// moduleOf compiles the engine while it is unpacked.
const moduleOf = (base64) => {
  const bytes = bytesOf(base64);
  const all = new DataView(bytes.buffer).getUint32(5, true); // of the engine, see unpack
  const pieces = unpack(bytes, 1 << 18);
  let done = 0;
  const stream = new ReadableStream({
    pull(to) {
      const { done: end, value } = pieces.next();
      if (end) { to.close(); return; }
      done += value.length;
      self.postMessage({ stage: 'unpacking the engine', done, of: all });
      to.enqueue(value.slice());
    },
  });
  return WebAssembly.compileStreaming(new Response(stream, { headers: { 'Content-Type': 'application/wasm' } }));
};

self.weftStage = (what, done, of) => self.postMessage({ stage: what, done, of });
const ready = new Promise((resolve) => { self.weftReady = resolve; });

const start = async ({ engine, module }) => {
  const compiled = module || await moduleOf(engine);
  if (!module) self.postMessage({ module: compiled }); // for the next worker, if this one is stopped
  const go = new Go();
  const instance = await WebAssembly.instantiate(compiled, go.importObject);
  go.run(instance).finally(() => self.postMessage({ ended: true }));
  await ready;
  self.postMessage({ ready: true });
};

let started;
self.onmessage = async ({ data }) => {
  if (data.start) {
    started = start(data.start);
    started.catch((e) => self.postMessage({ failed: String(e) }));
    return;
  }
  try {
    await started;
    self.postMessage({ id: data.id, reply: self.weftCall(data.name, data.args) });
  } catch (e) {
    self.postMessage({ id: data.id, reply: JSON.stringify({ fault: String(e) }) });
  }
};
