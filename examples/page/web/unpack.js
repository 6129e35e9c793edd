// Unpacks the engine: an "LZMA alone" stream with lc=4, lp=0, pb=0, as the Go half
// of the page writes it. It runs some twenty million steps while somebody waits:
// hence one loop, no helpers, and plain variables. The result comes in pieces, so
// that the browser compiles the first while the next is unpacked.
const unpack = function* (input, piece) {
  const view = new DataView(input.buffer, input.byteOffset);
  if (input[0] !== 4) throw new Error('the engine is packed in another way');
  const size = view.getUint32(5, true);
  const out = new Uint8Array(size);
  // Where the probabilities of each decision begin; that of a match is at the state.
  const REP = 12, REP0 = 24, LONG = 36, REP1 = 48, REP2 = 60, SLOT = 72, SPECIAL = 328, ALIGN = 456, MATCH = 472, AGAIN = 1024, LITERAL = 2048;
  const chance = new Uint16Array(LITERAL + 0x300 * 16).fill(1024);
  const step = { pos: 18, code: view.getInt32(14) | 0, range: -1, at: 0, state: 0, d0: 1, d1: 1, d2: 1, d3: 1 };

  // run unpacks until so much is there. What it is in the middle of is always done.
  const run = (until) => {
    let { pos, code, range, at, state, d0, d1, d2, d3 } = step;
    while (at < until) {
      // Is it a byte as it is?
      let i = state;
      let p = chance[i];
      let bound = Math.imul(range >>> 11, p);
      if ((code >>> 0) < (bound >>> 0)) {
        range = bound;
        chance[i] = p + ((2048 - p) >> 5);
        if ((range & 0xFF000000) === 0) { range <<= 8; code = (code << 8) | input[pos++]; }
        const base = LITERAL + 0x300 * (at ? out[at - 1] >> 4 : 0);
        // After a match the byte at its distance is what does not come: as long as
        // the bits are those of it, other tables are used.
        let expected = state >= 7 ? out[at - d0] : 0;
        let table = state >= 7 ? 0x100 : 0;
        let m = 1;
        do {
          expected <<= 1;
          const e = expected & table;
          i = base + table + e + m;
          p = chance[i];
          bound = Math.imul(range >>> 11, p);
          if ((code >>> 0) < (bound >>> 0)) {
            range = bound;
            chance[i] = p + ((2048 - p) >> 5);
            m <<= 1;
            table &= ~e;
          } else {
            range = (range - bound) | 0;
            code = (code - bound) | 0;
            chance[i] = p - (p >> 5);
            m = (m << 1) | 1;
            table &= e;
          }
          if ((range & 0xFF000000) === 0) { range <<= 8; code = (code << 8) | input[pos++]; }
        } while (m < 0x100);
        out[at++] = m;
        state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
        continue;
      }
      range = (range - bound) | 0;
      code = (code - bound) | 0;
      chance[i] = p - (p >> 5);
      if ((range & 0xFF000000) === 0) { range <<= 8; code = (code << 8) | input[pos++]; }

      // A match: one decision after the other, until length and distance are known.
      // `ask` says which decision it is, i where its probability stands.
      let ask = 0; // 0 again a known distance, 1 the last, 2 longer than a byte, 3 the one before, 4 the one before that, 5 and 6 sort of length, 7 length, 8 slot, 9 low bits
      let n = 0, lengths = 0, base = 0, m = 1, bits = 0, add = 0, slot = 0, low = 0, done = false;
      i = REP + state;
      do {
        let b = 0;
        p = chance[i];
        bound = Math.imul(range >>> 11, p);
        if ((code >>> 0) < (bound >>> 0)) {
          range = bound;
          chance[i] = p + ((2048 - p) >> 5);
        } else {
          range = (range - bound) | 0;
          code = (code - bound) | 0;
          chance[i] = p - (p >> 5);
          b = 1;
        }
        if ((range & 0xFF000000) === 0) { range <<= 8; code = (code << 8) | input[pos++]; }
        switch (ask) {
          case 0:
            if (b) { ask = 1; i = REP0 + state; } else { ask = 5; lengths = MATCH; i = MATCH; }
            break;
          case 1:
            if (b) { ask = 3; i = REP1 + state; } else { ask = 2; i = LONG + state; }
            break;
          case 2:
            if (b) { ask = 5; lengths = AGAIN; i = AGAIN; } else { n = 1; state = state < 7 ? 9 : 11; done = true; }
            break;
          case 3:
            if (b) { ask = 4; i = REP2 + state; } else { const d = d1; d1 = d0; d0 = d; ask = 5; lengths = AGAIN; i = AGAIN; }
            break;
          case 4: {
            let d = d2;
            if (b) { d = d3; d3 = d2; }
            d2 = d1; d1 = d0; d0 = d;
            ask = 5; lengths = AGAIN; i = AGAIN;
            break;
          }
          case 5:
            if (b) { ask = 6; i = lengths + 1; } else { ask = 7; base = lengths + 2; bits = 3; add = 2 - 8; m = 1; i = base + 1; }
            break;
          case 6:
            ask = 7; m = 1;
            if (b) { base = lengths + 18; bits = 8; add = 18 - 256; } else { base = lengths + 10; bits = 3; add = 10 - 8; }
            i = base + 1;
            break;
          case 7:
            m = (m << 1) | b;
            i = base + m;
            if (--bits) break;
            n = m + add;
            if (lengths === AGAIN) { state = state < 7 ? 8 : 11; done = true; break; }
            ask = 8; base = SLOT + 64 * (n < 5 ? n - 2 : 3); bits = 6; m = 1; i = base + 1;
            break;
          case 8: {
            m = (m << 1) | b;
            i = base + m;
            if (--bits) break;
            d3 = d2; d2 = d1; d1 = d0;
            state = state < 7 ? 7 : 10;
            slot = m - 64;
            if (slot < 4) { d0 = slot + 1; done = true; break; }
            bits = (slot >> 1) - 1;
            d0 = ((2 | (slot & 1)) << bits) + 1;
            if (slot < 14) {
              base = SPECIAL + d0 - 1 - slot;
            } else {
              let far = 0;
              for (let k = bits - 4; k > 0; k--) { // bits of which nothing is expected
                range >>>= 1;
                far <<= 1;
                if ((code >>> 0) >= (range >>> 0)) { code = (code - range) | 0; far |= 1; }
                if ((range & 0xFF000000) === 0) { range <<= 8; code = (code << 8) | input[pos++]; }
              }
              d0 += far * 16;
              base = ALIGN;
              bits = 4;
            }
            ask = 9; m = 1; low = 0; add = 0; i = base + 1;
            break;
          }
          default:
            m = (m << 1) | b;
            i = base + m;
            low |= b << add++;
            if (--bits) break;
            d0 += low;
            done = true;
        }
      } while (!done);
      if (d0 > at || n > size - at) throw new Error('the engine is damaged');
      for (const end = at + n; at < end; at++) out[at] = out[at - d0];
    }
    Object.assign(step, { pos, code, range, at, state, d0, d1, d2, d3 });
  };

  for (let told = 0; told < size; told = step.at) {
    run(Math.min(size, told + piece));
    yield out.subarray(told, step.at);
  }
};
