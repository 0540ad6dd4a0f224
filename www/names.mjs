// Gives the script beside the wasm the short names that wasm-opt gave what passes between the two (www/finish).
//
//   node names.mjs RENAMED SCRIPT WASM     RENAMED has a line "old => new" for each name
import { readFileSync, writeFileSync } from "node:fs";

const [renamed, script, wasm] = process.argv.slice(2);
const short = new Map(readFileSync(renamed, "utf8").split("\n").map((line) => line.split(" => ")).filter((pair) => pair.length === 2));
const module = new WebAssembly.Module(readFileSync(wasm));
const [imports, exports] = [WebAssembly.Module.imports(module), WebAssembly.Module.exports(module)];

const old = readFileSync(script, "utf8");
const text = old
  .replaceAll('"./plainspoon_bg.js": import0', `${JSON.stringify(imports[0].module)}: import0`)
  .replace(/^( +)(\w+)(: function\()/gm, (all, before, name, after) => before + (short.get(name) ?? name) + after)
  .replace(/\bwasm\.([\w$]+)/g, (all, name) => `wasm.${short.get(name) ?? name}`);

// A name that one side knows and the other does not would only show when the page starts.
const given = new Set([...text.matchAll(/^ +([\w$]+): function\(/gm)].map((m) => m[1]));
const taken = new Set([...text.matchAll(/\bwasm\.([\w$]+)/g)].map((m) => m[1]));
const known = new Set(exports.map((e) => e.name));
const missing = [...imports.map((i) => i.name).filter((n) => !given.has(n)), ...[...taken].filter((n) => !known.has(n))];
if (missing.length > 0 || imports.some((i) => i.module !== imports[0].module)) {
  console.error(`www/names.mjs: the script and the wasm do not agree on ${missing.join(", ")}`);
  process.exit(1);
}
writeFileSync(script, text);
