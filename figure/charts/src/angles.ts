import { curveCatmullRom, line as curveOf } from "d3-shape";
import type { AngleAt, Angles, Chart, WindCurve } from "./chart";
import { crossovers } from "./crossovers";
import { levelScale, tickText } from "./axis";
import { type Ink, apart, colour, dashes, hatch, isNarrow, line, marker, n, page, path, slot, text, widthFor, widthOf } from "./paper";
import { speed } from "./speed";

export function angles(c: Chart, a: Angles, ink: Ink): string {
  if (c.kind === "crossovers") return crossovers(c, a, ink);
  return c.kind === "speed" ? speed(c, a, ink) : polar(c, a, ink);
}

export function topSpeed(a: Angles): number {
  let top = 0;
  for (const w of a.winds) {
    for (const r of w.runs) for (const p of r) top = Math.max(top, p.speed);
    for (const b of w.best) top = Math.max(top, b.speed);
  }
  return top;
}

// withBest puts best angles into the run that they lie in or just beside.
const nearby = 11; // deg
export function withBest(w: WindCurve): AngleAt[][] {
  return w.runs.map((run) => {
    const extra = w.best.filter((b) => b.angle > run[0].angle - nearby && b.angle < run[run.length - 1].angle + nearby && !run.some((p) => Math.abs(p.angle - b.angle) < 0.5));
    return [...run, ...extra].sort((p, q) => p.angle - q.angle);
  });
}

// atBest marks best angles: the boat's own mark, and a stroke through the one to leeward.
export function atBest(ink: Ink, boat: number, name: string, x: number, y: number, r: number): string {
  return marker(slot(ink, boat), x, y, colour(ink, boat), ink.page, r) + (name === "leeward" ? line(x - r, y, x + r, y, ink.page, 1.6) : "");
}

function polar(c: Chart, a: Angles, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink);
  const from = Math.min(...a.winds.map((w) => Math.min(180, ...w.runs.map((r) => r[0].angle), ...w.best.map((b) => b.from))));
  const to = Math.max(...a.winds.map((w) => Math.max(0, ...w.runs.map((r) => r[r.length - 1].angle), ...w.best.map((b) => b.to))));
  const names = Math.max(...a.winds.map((w) => widthOf(w.name, 12)));
  const cx = narrow ? 52 : 90, radius = narrow ? Math.min(330, width - cx - 40) : Math.min(470, width - cx - 200);
  const r = levelScale([0, topSpeed(a) * 1.04], 0, radius);
  const spot = (p: { angle: number; speed: number }): [number, number] => {
    const t = (p.angle * Math.PI) / 180;
    return [r(p.speed) * Math.sin(t), -r(p.speed) * Math.cos(t)];
  };
  const first = Math.max(0, Math.floor(from / 15) * 15), last = Math.min(180, Math.ceil(to / 15) * 15);
  const rim = r.range()[1];
  const up = first < 90 ? rim * Math.cos((first * Math.PI) / 180) : 0, down = last > 90 ? -rim * Math.cos((last * Math.PI) / 180) : 0;
  const cy = up + 34, height = up + down + 64;
  const format = tickText(r, narrow ? 4 : 5);
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-warned", ink.soft, ink.page, "up", 6)}</defs>`;
  const arc = (v: number, b: number, e: number) => {
    const [x0, y0] = spot({ angle: b, speed: v }), [x1, y1] = spot({ angle: e, speed: v });
    return `M${n(x0)} ${n(y0)}A${n(r(v))} ${n(r(v))} 0 0 1 ${n(x1)} ${n(y1)}`;
  };
  for (const v of r.ticks(narrow ? 4 : 5)) {
    if (v === 0) continue;
    out += path(arc(v, first, last), `fill="none" stroke="${ink.faint}" stroke-width="0.9"`);
    const [x0, y0] = spot({ angle: first, speed: v });
    out += text(x0 - 4, y0 - 5, format(v), { size: 10.5, fill: ink.soft, anchor: "end", halo: ink.page });
  }
  for (let t = first; t <= last; t += narrow ? 30 : 15) {
    const [x1, y1] = spot({ angle: t, speed: r.domain()[1] });
    out += line(0, 0, x1, y1, ink.faint, 0.8);
    const s = 16 / rim;
    out += text(x1 * (1 + s), y1 * (1 + s) + 4, t + "°", { size: 10.5, fill: ink.soft, anchor: "middle" });
  }
  const [ax, ay] = spot({ angle: first, speed: r.domain()[1] * 0.5 });
  out += `<text transform="translate(${n(ax - 30)} ${n(ay)}) rotate(${n(first - 90)})" text-anchor="middle" font-size="11.5" fill="${ink.soft}">${a.axis}</text>`;
  out += text(-cx + 14, -up - 20, "true wind angle, wind from the top", { size: 10.5, fill: ink.soft });
  const draw = curveOf<[number, number]>().curve(curveCatmullRom);
  const labels: { x: number; y: number; s: string }[] = [];
  a.winds.forEach((w) => {
    const stroke = colour(ink, w.boat);
    for (const k of w.warned) out += path(arc(r.domain()[1], k.from - 2, k.to + 2), `fill="none" stroke="url(#${id}-warned)" stroke-width="9"`);
    for (const run of withBest(w)) {
      out += path(draw(run.map(spot)) ?? "", `fill="none" stroke="${stroke}" stroke-width="2" stroke-dasharray="${dashes[slot(ink, w.boat)]}"`);
      if (run.length === 1) out += marker(slot(ink, w.boat), ...spot(run[0]), stroke, ink.page, 3);
    }
    for (const b of w.best) {
      out += path(arc(b.speed, b.from, b.to), `fill="none" stroke="${stroke}" stroke-width="7" stroke-opacity="0.4"`);
      const [x, y] = spot(b);
      out += atBest(ink, w.boat, b.name, x, y, 5);
    }
    const end = w.runs.length ? farthest(w) : w.best[0];
    if (end) { const [x, y] = spot(end); labels.push({ x, y, s: w.name }); }
  });
  const placed = apart(labels.map((l) => l.y - 6), 15, -up - 4, down + 30);
  const free = width - cx - 8;
  labels.forEach((l, i) => {
    const fits = l.x + 10 + widthOf(l.s, 12.5) < free;
    out += text(fits ? l.x + 10 : free, placed[i], l.s, { size: 12, weight: 700, anchor: fits ? "start" : "end", halo: ink.page });
  });
  const field = `<rect class="fw-angles" data-way="round" data-radius="${n(rim)}" data-top="${r.domain()[1]}" data-first="${first}" data-last="${last}" x="0" y="${n(-up)}" width="${n(rim)}" height="${n(up + down)}" fill="none" pointer-events="none"/>`;
  const tall = 30 + a.winds.reduce((sum, w) => sum + 20 + 17 * Math.max(1, w.best.length) - 12, 0) + 30;
  const beneath = narrow || tall > height - 20 || radius + cx + 190 > width;
  const body = `<g transform="translate(${cx} ${n(cy)})">${out}${field}</g>${beneath ? list(a, ink, 14, height + 8, names) : list(a, ink, width - 200, height - tall, names)}`;
  return page(c, ink, width, beneath ? height + tall : Math.max(height, 120), body);
}

// farthest returns the point of a curve that is farthest to the side, where its name stands clear.
function farthest(w: WindCurve): AngleAt {
  let best = w.runs[0][0];
  for (const r of w.runs) for (const p of r) if (p.speed * Math.sin((p.angle * Math.PI) / 180) > best.speed * Math.sin((best.angle * Math.PI) / 180)) best = p;
  return best;
}

// list names best angles in figures.
function list(a: Angles, ink: Ink, x: number, y: number, names: number): string {
  let out = text(x, y, "best angles", { size: 11, fill: ink.soft });
  const at = x + Math.min(130, Math.max(66, names + 14));
  for (const w of a.winds) {
    y += 20;
    out += text(x, y, w.name, { size: 12, weight: 700 });
    for (const b of w.best) {
      out += atBest(ink, w.boat, b.name, at, y - 4, 4.5) + text(at + 10, y, b.text, { size: 11.5 });
      y += 17;
    }
    if (w.best.length === 0) { out += text(at, y, "none", { size: 11.5, fill: ink.soft }); y += 17; }
    y -= 12;
  }
  return out + atBest(ink, 0, "windward", x + 5, y + 26, 4.5) + text(x + 14, y + 30, "to windward", { size: 10.5, fill: ink.soft }) +
    atBest(ink, 0, "leeward", x + 96, y + 26, 4.5) + text(x + 105, y + 30, "to leeward", { size: 10.5, fill: ink.soft });
}
