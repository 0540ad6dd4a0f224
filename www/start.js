// The page's content policy allows no inline script, so the module is loaded from this file.
import init, { start } from "./plainspoon.js";

try {
  await init({ module_or_path: "./plainspoon_bg.wasm" });
  start();
} catch (trouble) {
  const broken = document.getElementById("broken");
  broken.hidden = false;
  document.getElementById("reload").addEventListener("click", () => location.reload());
  console.error(trouble);
}
