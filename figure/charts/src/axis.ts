import { scaleLinear, type ScaleLinear } from "d3-scale";
import { type Ink, line, n, text } from "./paper";

export type Scale = ScaleLinear<number, number>;

// tickText writes a round number as the tables do: a hyphen for minus, thousands not set apart.
export function tickText(s: Scale, count: number): (v: number) => string {
  const f = s.tickFormat(count);
  return (v) => f(v).replace("\u2212", "-").replace(/,/g, "");
}

export function levelScale(domain: [number, number], from: number, to: number): Scale {
  return scaleLinear().domain(domain).range([from, to]);
}

// under draws a horizontal axis under a picture, with hairlines up through it.
export function under(s: Scale, top: number, bottom: number, title: string, ink: Ink, count = 6): string {
  const format = tickText(s, count);
  let out = "";
  for (const t of s.ticks(count)) {
    const x = s(t);
    out += line(x, top, x, bottom, t === 0 ? ink.ink : ink.faint, t === 0 ? 1.2 : 0.8) + text(x, bottom + 15, format(t), { size: 11, fill: ink.soft, anchor: "middle" });
  }
  const [a, b] = s.range();
  return `<g>${out}${text((a + b) / 2, bottom + 33, title, { size: 11.5, fill: ink.soft, anchor: "middle" })}</g>`;
}

// beside draws a vertical axis at the left.
export function beside(s: Scale, left: number, right: number, title: string, ink: Ink, count = 6): string {
  const format = tickText(s, count);
  let out = "";
  for (const t of s.ticks(count)) {
    const y = s(t);
    out += line(left, y, right, y, t === 0 ? ink.ink : ink.faint, t === 0 ? 1.2 : 0.8) + text(left - 7, y + 4, format(t), { size: 11, fill: ink.soft, anchor: "end" });
  }
  const [a, b] = s.range();
  const y = (a + b) / 2;
  return `<g>${out}<text transform="translate(${n(left - 38)} ${n(y)}) rotate(-90)" text-anchor="middle" font-size="11.5" fill="${ink.soft}">${title}</text></g>`;
}

// padded widens a range by a share of it on either side.
export function padded(low: number, high: number, share: number): [number, number] {
  const span = high - low || Math.abs(high) || 1;
  return [low - span * share, high + span * share];
}
