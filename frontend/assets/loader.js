// Brings the islands of a page to life, if it has any and the server has their code.
// Without either the page stays as it was sent; everything on it works without this file.

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
