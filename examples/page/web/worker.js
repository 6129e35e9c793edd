// The worker: runs the engine, one call after the other, away from the page.
const bytesOf = (base64) => {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
};

// moduleOf compiles the engine while it is unpacked.
const moduleOf = (base64) => {
  const pieces = unpack(bytesOf(base64), 1 << 18);
  const stream = new ReadableStream({
    pull(to) {
      const { done, value } = pieces.next();
      if (done) to.close(); else to.enqueue(value.slice());
    },
  });
  return WebAssembly.compileStreaming(new Response(stream, { headers: { 'Content-Type': 'application/wasm' } }));
};

self.weftStage = (what) => self.postMessage({ stage: what });
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
