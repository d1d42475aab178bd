import { curveCatmullRom, line as curveOf } from "d3-shape";
import type { Angles, Chart } from "./chart";
import { atBest, topSpeed, withBest } from "./angles";
import { beside, levelScale, padded, under, underHeight } from "./axis";
import { type Ink, apart, colour, dashes, esc, hatch, isNarrow, line, marker, n, page, path, slot, text, widthFor, widthOf, wrap } from "./paper";

// speed draws speed along the wind angle, a curve for each boat in each wind, and under
// it over the same angles what the second of two boats sails more than the first.
export function speed(c: Chart, a: Angles, ink: Ink): string {
  const width = widthFor(ink), narrow = isNarrow(ink), top = 10, bottom = narrow ? 260 : 400;
  const names = Math.max(...a.winds.map((w) => widthOf(w.name, 12.5)));
  const left = narrow ? 48 : 80, right = width - Math.min(names, 150) - 14;
  const all = a.winds.flatMap((w) => [...w.runs.flat(), ...w.best].map((p) => p.angle).concat(w.gaps.flat()));
  const x = levelScale([Math.min(...all, ...a.winds.flatMap((w) => w.best.map((b) => b.from))) - 6, Math.max(...all) + 3], left, right);
  const low = Math.min(...a.winds.flatMap((w) => [...w.runs.flat(), ...w.best].map((p) => p.speed)));
  const y = levelScale([low < topSpeed(a) * 0.5 ? 0 : Math.floor(low * 0.95), topSpeed(a) * 1.05], bottom, top);
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-warned", ink.soft, ink.page, "up", 6)}</defs>` + beside(y, left, right, a.axis, ink);
  const draw = curveOf<[number, number]>().curve(curveCatmullRom);
  const ends: { at: number; y: number; s: string }[] = [];
  const notes: { x: number; y: number; s: string; anchor: "start" | "end" }[] = [];
  const several = a.winds.length > 2;
  a.winds.forEach((w, i) => {
    const stroke = colour(ink, w.boat);
    for (const k of w.warned) {
      const x0 = Math.max(left, x(k.from) - 5), x1 = Math.min(right, x(k.to) + 5);
      out += `<rect x="${n(x0)}" y="${n(bottom - 9 * (i + 1))}" width="${n(x1 - x0)}" height="8" fill="url(#${id}-warned)" stroke="${stroke}" stroke-width="0.8"><title>${esc(w.name + ": " + k.why)}</title></rect>`;
    }
    for (const run of withBest(w)) {
      out += path(draw(run.map((p) => [x(p.angle), y(p.speed)] as [number, number])) ?? "", `fill="none" stroke="${stroke}" stroke-width="2" stroke-dasharray="${dashes[slot(ink, w.boat)]}"`);
      if (run.length === 1) out += marker(slot(ink, w.boat), x(run[0].angle), y(run[0].speed), stroke, ink.page, 3);
    }
    for (const b of w.best) {
      const at = y(b.speed);
      out += line(x(b.from), at, x(b.to), at, stroke, 1.8) + line(x(b.from), at - 5, x(b.from), at + 5, stroke, 1.8) +
        line(x(b.to), at - 5, x(b.to), at + 5, stroke, 1.8) + atBest(ink, w.boat, b.name, x(b.angle), at, 5);
      if (several || narrow && a.winds.length > 1) continue; // the list under the plot tells them
      // the curve rises to the right: there is room under the first boat's, over the second's
      const over = w.boat % 2 === 0 ? -9 : 19;
      notes.push(b.name === "windward" ? { x: x(b.to) + 8, y: at + 14 + 4 * w.boat, s: b.text, anchor: "start" } : { x: Math.min(x(b.angle) + 8, right), y: at + over, s: b.text, anchor: x(b.angle) > right - 90 ? "end" : "start" });
    }
    const joined = withBest(w), last = joined[joined.length - 1] ?? [];
    const end = last[last.length - 1] ?? w.best[w.best.length - 1];
    if (end) ends.push({ at: x(end.angle), y: y(end.speed), s: w.name });
  });
  const noted = apart(notes.map((m) => m.y), 14, top + 8, bottom - 4);
  notes.forEach((m, i) => { out += text(m.x, noted[i], m.s, { size: 10.5, anchor: m.anchor, halo: ink.page }); });
  const placed = apart(ends.map((e) => e.y + 4), 15, top + 6, bottom);
  ends.forEach((e, i) => { out += text(e.at + 12, placed[i], e.s, { size: 12, weight: 700, halo: ink.page }); });
  const field = `<rect class="fw-angles" data-way="along" data-from="${x.domain()[0]}" data-to="${x.domain()[1]}" data-low="${y.domain()[0]}" data-high="${y.domain()[1]}" data-left="${n(left)}" data-right="${n(right)}" data-over="${top}" data-under="${bottom}" x="${n(left)}" y="${top}" width="${n(right - left)}" height="${bottom - top}" fill="none" pointer-events="none"/>`;
  const gains = a.gains.filter((g) => g.points.length > 1);
  let foot = bottom;
  if (gains.length) {
    const from = bottom + 20, to = from + (narrow ? 90 : 110);
    const at = gains.flatMap((g) => g.points.map((p) => p.at));
    const g = levelScale(padded(Math.min(0, ...at), Math.max(0, ...at), 0.12), to, from);
    out += beside(g, left, right, "", ink, 3) + text(left, from - 5, a.gain_axis, { size: 11, fill: ink.soft, halo: ink.page });
    gains.forEach((k) => {
      out += path(draw(k.points.map((p) => [x(p.angle), g(p.at)] as [number, number])) ?? "", `fill="none" stroke="${ink.ink}" stroke-width="1.8"`);
      for (const p of k.points) out += `<circle cx="${n(x(p.angle))}" cy="${n(g(p.at))}" r="2.6" fill="${ink.ink}"><title>${esc(p.text)}</title></circle>`;
      if (gains.length > 1) { const end = k.points[k.points.length - 1]; out += text(x(end.angle) + 8, g(end.at) + 4, k.name, { size: 11, halo: ink.page }); }
    });
    foot = to;
  }
  out += under(x, top, foot, "true wind angle (deg)", ink, 10) + field;
  let end = foot + underHeight("true wind angle (deg)", ink);
  if (several || narrow && a.winds.length > 1) {
    for (const w of a.winds) for (const b of w.best) {
      out += atBest(ink, w.boat, b.name, left + 5, end + 6, 4.5) + text(left + 16, end + 10, `${w.name}, best to ${b.name}: ${b.text}`, { size: 11 });
      end += 17;
    }
  }
  const whys = Array.from(new Set(a.winds.flatMap((w) => w.warned.map((k) => `hatched: ${w.name}: ${k.why}`))));
  for (const why of whys.slice(0, 4)) for (const l of wrap(why, 10.5, width - left - 14)) { out += text(left, end + 10, l, { size: 10.5, fill: ink.soft }); end += 14; }
  return page(c, ink, width, end + 4, out);
}
