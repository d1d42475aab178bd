// Where on a drawn chart a wind angle and a speed lie, and which angle a place is. The
// drawing says so itself, in the data of its element of class fw-angles.

export interface Field {
  element: SVGGraphicsElement;
  origin: [number, number]; // of the element's group in the drawing
  at: Record<string, number>;
  way: "round" | "along";
}

export function fieldIn(picture: HTMLElement): Field | null {
  const element = picture.querySelector<SVGGraphicsElement>(".fw-angles");
  const own = element?.getCTM();
  if (!element || !own || own.a === 0) return null;
  const at = Object.fromEntries(Object.entries(element.dataset).filter(([n]) => n !== "way").map(([n, v]) => [n, Number(v)]));
  return { element, origin: [own.e / own.a, own.f / own.a], at, way: element.dataset.way === "round" ? "round" : "along" };
}

// placeOf returns where a speed at an angle, deg, is drawn.
export function placeOf(f: Field, angle: number, speed: number): [number, number] {
  const { at } = f;
  if (f.way === "round") {
    const t = (angle * Math.PI) / 180, r = (speed / at.top!) * at.radius!;
    return [f.origin[0] + r * Math.sin(t), f.origin[1] - r * Math.cos(t)];
  }
  const x = at.left! + ((angle - at.from!) / (at.to! - at.from!)) * (at.right! - at.left!);
  const y = at.under! + ((speed - at.low!) / (at.high! - at.low!)) * (at.over! - at.under!);
  return [f.origin[0] + x, f.origin[1] + y];
}

// rayOf returns the ends of the line that marks an angle.
export function rayOf(f: Field, angle: number): [number, number, number, number] {
  if (f.way === "round") return [f.origin[0], f.origin[1], ...placeOf(f, angle, f.at.top!)];
  return [...placeOf(f, angle, f.at.low!), ...placeOf(f, angle, f.at.high!)];
}

// angleAt returns the angle, deg, of a place on the screen; null beside the chart.
export function angleAt(f: Field, x: number, y: number): number | null {
  const screen = f.element.getScreenCTM();
  if (!screen) return null;
  const p = new DOMPoint(x, y).matrixTransform(screen.inverse());
  if (f.way === "round") {
    const deg = (Math.atan2(p.x, -p.y) * 180) / Math.PI;
    return p.x < -10 ? null : deg;
  }
  const deg = f.at.from! + ((p.x - f.at.left!) / (f.at.right! - f.at.left!)) * (f.at.to! - f.at.from!);
  return deg < f.at.from! - 4 || deg > f.at.to! + 4 ? null : deg;
}
