// Replaces the body of each function that only ends the program, such as the one that says an index is out of bounds, with a
// trap (www/finish). wasm-opt then drops what was handed to them and everything that wrote the messages. What the cook sees of
// such an end is the notice of www/start.js either way.
//
//   node traps.mjs WASM      WASM still has the names of its functions, and is changed in place
import { readFileSync, writeFileSync } from "node:fs";

// The names Rust's library gives the functions that never return.
const ENDS = [
  /^core[^:]*::panicking::/,
  /^core[^:]*::(option|result)::(unwrap|expect)_failed$/,
  /^core[^:]*::slice::index::slice_\w*fail$/,
  /^core[^:]*::str::slice_error_fail/,
  /^core[^:]*::cell::panic_/,
  /^core[^:]*::len_mismatch_fail$/,
  /^alloc[^:]*::raw_vec::(handle_error|capacity_overflow)$/,
  /^alloc[^:]*::alloc::handle_alloc_error$/,
  /^std[^:]*::.*(panic_access_error|panic_poisoned)$/,
  /::(assert_failed|capacity_overflow)$/,
  /\brust_begin_unwind$/,
  // What only those call, through a table that wasm-opt keeps: parts of their messages. The page prints nothing this way.
  /^<.* as core[^:]*::fmt::(Debug|LowerHex|UpperHex)>::fmt$/,
  /^std[^:]*::panicking::panic_with_hook$/,
  /^<.* as core[^:]*::panic::PanicPayload>::/,
];
const [IMPORTS, CODE, CUSTOM] = [2, 10, 0];
// No locals, `unreachable`, `end`; the length stands before.
const TRAP = Buffer.from([3, 0x00, 0x00, 0x0b]);

const [path] = process.argv.slice(2);
const wasm = readFileSync(path);
let at = 8;

function number() {
  let value = 0;
  for (let scale = 1; ; scale *= 128) {
    const byte = wasm[at++];
    value += (byte & 127) * scale;
    if (byte < 128) return value;
  }
}

function text() {
  const length = number();
  at += length;
  return wasm.toString("utf8", at - length, at);
}

function written(value) {
  const bytes = [];
  for (; value > 127; value = Math.floor(value / 128)) bytes.push((value & 127) | 128);
  return Buffer.from([...bytes, value]);
}

function limits() {
  const flags = number();
  number();
  if (flags & 1) number();
}

// Only functions count towards the number a function goes by.
function importedFunctions() {
  let functions = 0;
  for (let left = number(); left > 0; left--) {
    text();
    text();
    const kind = wasm[at++];
    if (kind === 0) {
      functions++;
      number();
    } else if (kind === 1) {
      at++;
      limits();
    } else if (kind === 2) limits();
    else at += 2;
  }
  return functions;
}

function functionNames(end, names) {
  if (text() !== "name") return;
  while (at < end) {
    const part = wasm[at++];
    const length = number();
    const after = at + length;
    if (part === 1) {
      for (let left = number(); left > 0; left--) {
        const place = number();
        names.set(place, text());
      }
    }
    at = after;
  }
}

const sections = [];
while (at < wasm.length) {
  const kind = wasm[at++];
  const length = number();
  sections.push({ kind, start: at, end: at + length });
  at += length;
}
let imported = 0;
const names = new Map();
for (const { kind, start, end } of sections) {
  at = start;
  if (kind === IMPORTS) imported = importedFunctions();
  if (kind === CUSTOM) functionNames(end, names);
}

let traps = 0;
const out = [wasm.subarray(0, 8)];
for (const { kind, start, end } of sections) {
  let body = [wasm.subarray(start, end)];
  if (kind === CODE) {
    at = start;
    const count = number();
    body = [written(count)];
    for (let k = 0; k < count; k++) {
      const from = at;
      const length = number();
      at += length;
      const ends = ENDS.some((name) => name.test(names.get(imported + k) ?? ""));
      traps += ends;
      body.push(ends ? TRAP : wasm.subarray(from, at));
    }
  }
  const whole = Buffer.concat(body);
  out.push(Buffer.from([kind]), written(whole.length), whole);
}
// Another compiler may name them otherwise: the page would be the same and larger, and nobody would be told.
if (traps < 10) {
  console.error(`www/traps.mjs: only ${traps} functions that end the program have a name known here`);
  process.exit(1);
}
writeFileSync(path, Buffer.concat(out));
