// sized tells an element's inner size, px, whenever the browser has laid it out anew; it
// never makes it do so.
export function sized(element: Element, told: (width: number, height: number) => void): { destroy: () => void } {
  const observer = new ResizeObserver((entries) => {
    const box = entries.at(-1)!.contentRect;
    told(Math.round(box.width), Math.round(box.height));
  });
  observer.observe(element);
  return { destroy: () => observer.disconnect() };
}

const work = 14; // px of type at work, which drawings are made for

// typeScale is the size of the page's type over that at work: drawings grow with it.
export function typeScale(): number {
  return parseFloat(getComputedStyle(document.documentElement).fontSize) / work;
}
