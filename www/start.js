// The page's content policy allows no inline script, so the module is loaded from this file.
import init, { start, words } from "./plainspoon.js";

async function lists() {
  const answer = await fetch("./words.txt");
  if (!answer.ok) throw new Error("the word lists did not load");
  return answer.text();
}

function broken(trouble) {
  document.getElementById("broken").hidden = false;
  document.getElementById("reload").addEventListener("click", () => location.reload());
  console.error(trouble);
}

// A trap leaves the module in no state to go on, wherever it was called from.
for (const kind of ["error", "unhandledrejection"]) {
  addEventListener(kind, (event) => {
    const trouble = event.error ?? event.reason;
    if (trouble instanceof WebAssembly.RuntimeError) broken(trouble);
  });
}

try {
  const [text] = await Promise.all([lists(), init({ module_or_path: "./plainspoon_bg.wasm" })]);
  words(text);
  start();
} catch (trouble) {
  broken(trouble);
}
