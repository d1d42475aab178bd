import { curveCatmullRom, line as curveOf } from "d3-shape";
import type { AngleAt, Angles, Chart, WindCurve } from "./chart";
import { beside, levelScale, tickText, under } from "./axis";
import { type Ink, apart, dashes, hatch, line, marker, n, page, path, text, widthOf } from "./paper";

export function angles(c: Chart, a: Angles, ink: Ink): string {
  if (c.kind === "crossovers") return crossovers(c, a, ink);
  return c.kind === "speed" ? speed(c, a, ink) : polar(c, a, ink);
}

// A picture is of one boat, so her colour serves all winds; winds differ by dash and
// by the name at the line's end.
const strokeOf = (i: number) => dashes[i % 4];

function topSpeed(a: Angles): number {
  let top = 0;
  for (const w of a.winds) {
    for (const r of w.runs) for (const p of r) top = Math.max(top, p.speed);
    for (const b of w.best) top = Math.max(top, b.speed);
  }
  return top;
}

// withBest puts best angles into the run that they lie in or just beside.
const nearby = 11; // deg
function withBest(w: WindCurve): AngleAt[][] {
  return w.runs.map((run) => {
    const extra = w.best.filter((b) => b.angle > run[0].angle - nearby && b.angle < run[run.length - 1].angle + nearby && !run.some((p) => Math.abs(p.angle - b.angle) < 0.5));
    return [...run, ...extra].sort((p, q) => p.angle - q.angle);
  });
}

function polar(c: Chart, a: Angles, ink: Ink): string {
  const width = 800, radius = 470, cx = 90;
  const from = Math.min(...a.winds.map((w) => Math.min(180, ...w.runs.map((r) => r[0].angle), ...w.best.map((b) => b.from))));
  const to = Math.max(...a.winds.map((w) => Math.max(0, ...w.runs.map((r) => r[r.length - 1].angle), ...w.best.map((b) => b.to))));
  const r = levelScale([0, topSpeed(a) * 1.04], 0, radius);
  const spot = (p: AngleAt): [number, number] => {
    const t = (p.angle * Math.PI) / 180;
    return [r(p.speed) * Math.sin(t), -r(p.speed) * Math.cos(t)];
  };
  const first = Math.max(0, Math.floor(from / 15) * 15), last = Math.min(180, Math.ceil(to / 15) * 15);
  const rim = r.range()[1];
  const up = first < 90 ? rim * Math.cos((first * Math.PI) / 180) : 0, down = last > 90 ? -rim * Math.cos((last * Math.PI) / 180) : 0;
  const cy = up + 26, height = up + down + 60;
  const format = tickText(r, 5);
  let out = "";
  const arc = (v: number, b: number, e: number) => {
    const [x0, y0] = spot({ angle: b, speed: v }), [x1, y1] = spot({ angle: e, speed: v });
    return `M${n(x0)} ${n(y0)}A${n(r(v))} ${n(r(v))} 0 0 1 ${n(x1)} ${n(y1)}`;
  };
  for (const v of r.ticks(5)) {
    if (v === 0) continue;
    out += path(arc(v, first, last), `fill="none" stroke="${ink.faint}" stroke-width="0.9"`);
    const [x0, y0] = spot({ angle: first, speed: v });
    out += text(x0 - 4, y0 - 5, format(v), { size: 10.5, fill: ink.soft, anchor: "end", halo: ink.page });
  }
  for (let t = first; t <= last; t += 15) {
    const [x1, y1] = spot({ angle: t, speed: r.domain()[1] });
    out += line(0, 0, x1, y1, ink.faint, 0.8);
    const s = 16 / rim;
    out += text(x1 * (1 + s), y1 * (1 + s) + 4, t + "°", { size: 10.5, fill: ink.soft, anchor: "middle" });
  }
  const [ax, ay] = spot({ angle: first, speed: r.domain()[1] * 0.5 });
  out += `<text transform="translate(${n(ax - 30)} ${n(ay)}) rotate(${n(first - 90)})" text-anchor="middle" font-size="11.5" fill="${ink.soft}">${a.axis}</text>`;
  out += text(0, 18, "true wind angle, wind from the top", { size: 10.5, fill: ink.soft, anchor: "start" });
  const draw = curveOf<[number, number]>().curve(curveCatmullRom);
  const labels: { x: number; y: number; s: string; i: number }[] = [];
  a.winds.forEach((w, i) => {
    for (const run of withBest(w)) {
      out += path(draw(run.map(spot)) ?? "", `fill="none" stroke="${ink.boats[0]}" stroke-width="2" stroke-dasharray="${strokeOf(i)}"`);
      if (run.length === 1) out += marker(0, ...spot(run[0]), ink.boats[0], ink.page, 3);
    }
    for (const b of w.best) {
      const band = path(arc(b.speed, b.from, b.to), `fill="none" stroke="${ink.ink}" stroke-width="6" stroke-opacity="0.5"`);
      const [x, y] = spot(b);
      out += band + marker(b.name === "windward" ? 0 : 3, x, y, ink.boats[0], ink.page, 5);
    }
    const end = w.runs.length ? widest(w) : w.best[0];
    if (end) { const [x, y] = spot(end); labels.push({ x, y, s: w.name, i }); }
  });
  for (const l of labels) out += text(l.x + 8, l.y - 6, l.s, { size: 12, weight: 700, halo: ink.page });
  return page(c, ink, width, Math.max(height, 120), `<g transform="translate(${cx} ${n(cy)})">${out}</g>${list(a, ink, 600, Math.max(10, height - 26 * a.winds.length * 2 - 40))}`);
}

// widest returns the point of a curve that is farthest to the side, where its name stands clear.
function widest(w: WindCurve): AngleAt {
  let best = w.runs[0][0];
  for (const r of w.runs) for (const p of r) if (p.speed * Math.sin((p.angle * Math.PI) / 180) > best.speed * Math.sin((best.angle * Math.PI) / 180)) best = p;
  return best;
}

// list names best angles in figures.
function list(a: Angles, ink: Ink, x: number, y: number): string {
  let out = text(x, y, "best angles", { size: 11, fill: ink.soft });
  for (const w of a.winds) {
    y += 20;
    out += text(x, y, w.name, { size: 12, weight: 700 });
    for (const b of w.best) {
      out += marker(b.name === "windward" ? 0 : 3, x + 66, y - 4, ink.boats[0], ink.page, 4.5) + text(x + 76, y, b.text, { size: 11.5 });
      y += 17;
    }
    if (w.best.length === 0) { out += text(x + 66, y, "none", { size: 11.5, fill: ink.soft }); y += 17; }
    y -= 12;
  }
  return out + marker(0, x + 4, y + 30, ink.boats[0], ink.page, 4.5) + text(x + 13, y + 34, "windward", { size: 10.5, fill: ink.soft }) +
    marker(3, x + 80, y + 30, ink.boats[0], ink.page, 4.5) + text(x + 89, y + 34, "leeward", { size: 10.5, fill: ink.soft });
}

function speed(c: Chart, a: Angles, ink: Ink): string {
  const width = 800, left = 80, right = width - 90, top = 10, bottom = 400;
  const all = a.winds.flatMap((w) => [...w.runs.flat(), ...w.best].map((p) => p.angle).concat(w.gaps.flat()));
  const x = levelScale([Math.min(...all, ...a.winds.flatMap((w) => w.best.map((b) => b.from - 17))) - 3, Math.max(...all) + 3], left, right);
  const low = Math.min(...a.winds.flatMap((w) => [...w.runs.flat(), ...w.best].map((p) => p.speed)));
  const y = levelScale([low < topSpeed(a) * 0.5 ? 0 : Math.floor(low * 0.95), topSpeed(a) * 1.05], bottom, top);
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-gap", ink.faint, ink.page, "up", 7)}</defs>` + beside(y, left, right, a.axis, ink) + under(x, top, bottom, "true wind angle (deg)", ink, 10);
  const draw = curveOf<[number, number]>().curve(curveCatmullRom);
  const ends: { at: number; y: number; s: string }[] = [];
  a.winds.forEach((w, i) => {
    for (const run of withBest(w)) {
      out += path(draw(run.map((p) => [x(p.angle), y(p.speed)] as [number, number])) ?? "", `fill="none" stroke="${ink.boats[0]}" stroke-width="2" stroke-dasharray="${strokeOf(i)}"`);
      if (run.length === 1) out += marker(0, x(run[0].angle), y(run[0].speed), ink.boats[0], ink.page, 3);
    }
    for (const b of w.best) {
      out += line(x(b.from), y(b.speed), x(b.to), y(b.speed), ink.ink, 1.6) + line(x(b.from), y(b.speed) - 5, x(b.from), y(b.speed) + 5, ink.ink, 1.6) +
        line(x(b.to), y(b.speed) - 5, x(b.to), y(b.speed) + 5, ink.ink, 1.6) + marker(b.name === "windward" ? 0 : 3, x(b.angle), y(b.speed), ink.boats[0], ink.page, 5);
      out += b.name === "windward" // the curve rises to the right: above to the left there is room
        ? text(x(b.from) - 6, y(b.speed) - 4, b.text, { size: 10.5, anchor: "end", halo: ink.page })
        : text(x(b.angle) + 8, y(b.speed) - 9, b.text, { size: 10.5, halo: ink.page });
    }
    const joined = withBest(w), last = joined[joined.length - 1] ?? [];
    const end = last[last.length - 1] ?? w.best[w.best.length - 1];
    // a best angle that ends the curve keeps its bar clear
    if (end) ends.push({ at: x(end.angle), y: y(end.speed) + (w.best.some((b) => b.angle === end.angle) ? 16 : 0), s: w.name });
  });
  const placed = apart(ends.map((e) => e.y + 4), 15, top + 10, bottom);
  ends.forEach((e, i) => { out += text(e.at + 9, placed[i], e.s, { size: 12, weight: 700, halo: ink.page }); });
  return page(c, ink, width, bottom + 44, out);
}

function crossovers(c: Chart, a: Angles, ink: Ink): string {
  const width = 800, left = 90, right = width - 40, row = 62, top = 8;
  const all = a.winds.flatMap((w) => w.ways.flatMap((r) => [r.from, r.to]).concat(w.gaps.flat()));
  const x = levelScale([Math.min(...all) - 2, Math.max(...all) + 2], left, right);
  const bottom = top + row * a.winds.length;
  const names = Array.from(new Set(a.winds.flatMap((w) => w.ways.map((r) => r.name))));
  const id = `fw-${c.kind}-${ink.name}`;
  const tints = names.map((_, i) => (["up", "down", "level"] as const)[i % 3]);
  let out = `<defs>${names.map((_, i) => hatch(`${id}-${i}`, ink.faint, ink.page, tints[i], 5 + 2 * i)).join("")}</defs>`;
  out += under(x, top, bottom, "true wind angle (deg)", ink, 12);
  a.winds.forEach((w, i) => {
    const y = top + row * i + 20, h = row - 26;
    out += text(left - 14, y + h / 2 + 4, w.name, { size: 13, weight: 600, anchor: "end" });
    for (const g of w.gaps) out += line(x(g[0]), y + h / 2, x(g[1]), y + h / 2, ink.soft, 1, "2 4") + (x(g[1]) - x(g[0]) > 70 ? text((x(g[0]) + x(g[1])) / 2, y + h / 2 - 5, "cannot fly", { size: 10.5, fill: ink.soft, anchor: "middle", halo: ink.page }) : "");
    for (const r of w.ways) {
      const wide = Math.max(3, x(r.to) - x(r.from));
      out += `<rect x="${n(x(r.from))}" y="${n(y)}" width="${n(wide)}" height="${h}" fill="url(#${id}-${names.indexOf(r.name)})" stroke="${ink.ink}" stroke-width="1"><title>${r.name}</title></rect>`;
      const parts = widthOf(r.name, 12) < wide - 8 ? [r.name] : r.name.split(", ");
      if (Math.max(...parts.map((p) => widthOf(p, 12))) < wide - 6) parts.forEach((p, k) => { out += text(x(r.from) + wide / 2, y + h / 2 + 4 + (k - (parts.length - 1) / 2) * 14, p, { size: 12, anchor: "middle", halo: ink.page }); });
      else out += text(x(r.from) + wide / 2, y + h / 2 + 4, String(names.indexOf(r.name) + 1), { size: 11, anchor: "middle", halo: ink.page });
    }
    for (const k of w.crossovers) out += line(x(k.angle), y - 4, x(k.angle), y + h, ink.ink, 2) + text(x(k.angle), y - 7, k.text, { size: 11, weight: 700, anchor: "middle", halo: ink.page });
  });
  let y = bottom + 52;
  if (names.length > 1) names.forEach((name, i) => { out += text(left, y, `${i + 1}  ${name}`, { size: 11, fill: ink.soft }); y += 15; });
  return page(c, ink, width, y, out);
}
