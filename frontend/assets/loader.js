// Brings the islands of a page to life, if it has any and the server has their code, and its buttons
// that print. Without this file the page stays as it was sent, and everything on it works.

for (const button of document.querySelectorAll("button[data-prints]")) {
  button.hidden = false;
  button.addEventListener("click", () => print());
}

const islands = document.querySelectorAll("leptos-island");

async function wake() {
  const code = await import("/assets/islands/islands.js");
  await code.default({ module_or_path: "/assets/islands/islands_bg.wasm" });
  code.hydrate();
  for (const island of islands) {
    await code[island.dataset.component]?.(island);
  }
}

if (islands.length > 0) {
  wake().catch(() => {});
}
