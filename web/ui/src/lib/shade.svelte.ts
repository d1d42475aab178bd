// The theme that the page has, for drawings that carry their own colours.

export const shade: { now: "light" | "dark" } = $state({ now: "light" });

// watch keeps the theme true to the page; it returns what ends that.
export function watch(): () => void {
  const read = () => (shade.now = document.documentElement.dataset.theme === "dark" ? "dark" : "light");
  read();
  const seen = new MutationObserver(read);
  seen.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme"] });
  return () => seen.disconnect();
}
