import type { Chart, Front, Place } from "./chart";
import { levelScale } from "./axis";
import { type Ink, apart, hatch, line, n, page, path, polyline, text, widthOf } from "./paper";

const width = 860;
const columnLeft = 178, columnRight = width - 178; // labels stand outside of these
const longest = 112; // of an arrow, px

// View turns metres into px of the picture.
interface View { x: (m: number) => number; y: (m: number) => number; scale: number }

const list = <T>(a: T[] | null): T[] => a ?? [];

// front draws a boat from astern, looking forward, to scale; below her the foil that
// carries most, larger, with its three centres.
export function front(c: Chart, f: Front, ink: Ink): string {
  const top = 8, tall = 500;
  const view = fit(f, top, tall);
  const bottom = top + tall;
  const id = `fw-${c.kind}-${ink.name}`;
  let out = `<defs>${hatch(id + "-wet", ink.water, ink.page, "up", 5)}` +
    `<clipPath id="${id}-dry"><rect x="0" y="0" width="${width}" height="${n(view.y(0))}"/></clipPath>` +
    `<clipPath id="${id}-under"><rect x="0" y="${n(view.y(0))}" width="${width}" height="${n(bottom - view.y(0) + 60)}"/></clipPath>` +
    `<clipPath id="${id}-sheet"><rect x="${columnLeft}" y="${top}" width="${columnRight - columnLeft}" height="${tall + 40}"/></clipPath></defs>`;
  out += `<g clip-path="url(#${id}-sheet)">${water(f, view, ink)}${boat(f, view, ink, id)}${axis(f, view, ink, top, bottom)}</g>`;
  out += lever(f, view, ink, bottom) + labels(f, view, ink, top, bottom) + rule(f, view, ink, bottom + 40);
  const [detail, more] = enlarged(f, ink, id, bottom + 82);
  return page(c, ink, width, bottom + 82 + more, out + detail);
}

// fit finds the scale at which all that matters is on the sheet; the rig above the
// sails' centres of effort is cut.
function fit(f: Front, top: number, tall: number): View {
  const xs: number[] = [], ys: number[] = [0];
  const take = (p: Place) => { xs.push(p[0]); ys.push(p[1]); };
  list(f.hulls).flat().forEach(take);
  list(f.pieces).forEach((p) => p.line.forEach(take));
  list(f.weights).forEach((w) => { xs.push(w.at[0]); ys.push(w.at[1]); });
  list(f.forces).forEach((p) => take(p.at));
  const low = Math.min(...ys), high = Math.max(...ys), span = high - low;
  const bottom = low - span * 0.06, roof = high + span * 0.1;
  const left = Math.min(...xs), right = Math.max(...xs);
  const inner = columnRight - columnLeft - 40;
  const scale = Math.min(inner / (right - left), tall / (roof - bottom));
  const middle = (left + right) / 2, spare = (tall - scale * (roof - bottom)) / 2;
  return { scale, x: (m) => (columnLeft + columnRight) / 2 + (m - middle) * scale, y: (m) => top + spare + (roof - m) * scale };
}

function water(f: Front, v: View, ink: Ink): string {
  const y = v.y(0);
  let out = line(columnLeft, y, columnRight, y, ink.water, 1.2);
  if (f.crest > 0) out += line(columnLeft, v.y(f.crest), columnRight, v.y(f.crest), ink.water, 0.8, "6 5") + line(columnLeft, v.y(-f.crest), columnRight, v.y(-f.crest), ink.water, 0.8, "1 5");
  return out;
}

// outline is a piece of a foil as thick as its sections are.
function outline(p: { line: Place[]; thick: number[] }, v: View): [number, number][] {
  const at = p.line.map((q): [number, number] => [v.x(q[0]), v.y(q[1])]);
  const one: [number, number][] = [], other: [number, number][] = [];
  at.forEach((q, i) => {
    const a = at[Math.max(0, i - 1)], b = at[Math.min(at.length - 1, i + 1)];
    const dx = b[0] - a[0], dy = b[1] - a[1], l = Math.hypot(dx, dy) || 1;
    const h = Math.max(1.7, (p.thick[i] * v.scale) / 2);
    one.push([q[0] - (dy / l) * h, q[1] + (dx / l) * h]);
    other.unshift([q[0] + (dy / l) * h, q[1] - (dx / l) * h]);
  });
  return [...one, ...other];
}

function boat(f: Front, v: View, ink: Ink, id: string): string {
  let out = "";
  const cut = list(f.spars).find((s) => v.y(s[1][1]) < 0);
  if (cut) {
    const share = (v.y(cut[0][1]) - 12) / (v.y(cut[0][1]) - v.y(cut[1][1]));
    const at = v.x(cut[0][0] + share * (cut[1][0] - cut[0][0]));
    out += path(`M${n(at - 12)} 12l6 -4l6 6l6 -4l6 4`, `fill="none" stroke="${ink.soft}"`) + text(at + 20, 18, "rig cut here", { size: 9.5, fill: ink.soft });
  }
  for (const s of list(f.spars)) out += line(v.x(s[0][0]), v.y(s[0][1]), v.x(s[1][0]), v.y(s[1][1]), ink.soft, 2.2);
  for (const s of list(f.luffs)) out += line(v.x(s[0][0]), v.y(s[0][1]), v.x(s[1][0]), v.y(s[1][1]), ink.soft, 0.8, "5 3");
  for (const h of list(f.hulls)) {
    const d = polyline(h.map((p): [number, number] => [v.x(p[0]), v.y(p[1])]), "closed");
    out += path(d, `clip-path="url(#${id}-under)" fill="url(#${id}-wet)" stroke="${ink.water}" stroke-width="0.9"`);
    out += path(d, `clip-path="url(#${id}-dry)" fill="none" stroke="${ink.ink}" stroke-width="0.9" stroke-opacity="0.75"`);
  }
  return out + foils(f, v, ink, id, list(f.pieces));
}

function foils(f: Front, v: View, ink: Ink, id: string, pieces: { line: Place[]; thick: number[] }[]): string {
  let out = "";
  for (const p of pieces) {
    const d = polyline(outline(p, v), "closed");
    out += path(d, `clip-path="url(#${id}-dry)" fill="${ink.page}" stroke="${ink.ink}" stroke-width="1"`);
    out += path(d, `clip-path="url(#${id}-under)" fill="${ink.water}" stroke="${ink.water}" stroke-width="1"`);
  }
  for (const b of list(f.bodies)) {
    out += `<circle cx="${n(v.x(b.at[0]))}" cy="${n(v.y(b.at[1]))}" r="${n((b.diameter / 2) * v.scale)}" fill="${b.at[1] < 0 ? ink.water : ink.page}" stroke="${b.at[1] < 0 ? ink.water : ink.ink}"/>`;
  }
  return out;
}

// axis draws the line of action of the foil that carries most.
function axis(f: Front, v: View, ink: Ink, top: number, bottom: number): string {
  if (!f.line) return "";
  const [x, y] = [v.x(f.line.at[0]), v.y(f.line.at[1])];
  const dx = f.line.direction[0], dy = -f.line.direction[1], far = bottom - top;
  return line(x - dx * far * 0.08, y - dy * far * 0.08, x + dx * far, y + dy * far, ink.soft, 1, "12 4 2 4");
}

// lever dimensions the level distance as on a drawing.
function lever(f: Front, v: View, ink: Ink, bottom: number): string {
  if (!f.lever) return "";
  const a = v.x(f.lever.from[0]), b = v.x(f.lever.to[0]), y = bottom + 16;
  const slash = (x: number) => line(x - 5, y + 5, x + 5, y - 5, ink.ink, 1.4);
  const words = f.lever.text, room = Math.abs(b - a) > widthOf(words, 13) + 16;
  return line(a, v.y(f.lever.from[1]), a, y + 6, ink.soft, 0.7, "1 3") + line(b, v.y(f.lever.to[1]), b, y + 6, ink.soft, 0.7, "1 3") +
    line(a, y, b, y, ink.ink, 1) + slash(a) + slash(b) +
    (room ? text((a + b) / 2, y - 5, words, { size: 13, weight: 700, anchor: "middle", halo: ink.page })
      : text(Math.max(a, b) + 12, y + 4, words, { size: 13, weight: 700, halo: ink.page })) +
    text((a + b) / 2, y + 17, f.lever.between, { size: 10, fill: ink.soft, anchor: "middle", halo: ink.page });
}

// labels draws forces and weights, with their names in a column on either side.
function labels(f: Front, v: View, ink: Ink, top: number, bottom: number): string {
  const largest = Math.max(1, ...list(f.forces).map((p) => Math.hypot(...p.force)));
  const pull = levelScale([0, largest], 0, longest);
  const heaviest = Math.max(1, ...list(f.weights).map((w) => parseFloat(w.text) || 1));
  let out = "";
  const notes: { x: number; y: number; name: string; value: string; kind: string }[] = [];
  for (const w of list(f.weights)) {
    const x = v.x(w.at[0]), y = v.y(w.at[1]), r = 2.5 + 4.5 * Math.sqrt((parseFloat(w.text) || 1) / heaviest);
    out += `<circle cx="${n(x)}" cy="${n(y)}" r="${n(r)}" fill="${ink.page}" stroke="${ink.ink}" stroke-width="1"/>` +
      path(`M${n(x)} ${n(y)}L${n(x)} ${n(y - r)}A${n(r)} ${n(r)} 0 0 1 ${n(x + r)} ${n(y)}ZM${n(x)} ${n(y)}L${n(x)} ${n(y + r)}A${n(r)} ${n(r)} 0 0 1 ${n(x - r)} ${n(y)}Z`, `fill="${ink.ink}"`);
    notes.push({ x, y, name: w.name, value: w.text, kind: "mass" });
  }
  for (const p of list(f.forces)) {
    const size = Math.hypot(...p.force), l = Math.max(6, pull(size));
    const x = v.x(p.at[0]), y = v.y(p.at[1]), dx = p.force[0] / size, dy = -p.force[1] / size;
    const tx = x + dx * l, ty = y + dy * l, head = Math.min(9, l * 0.55), bx = tx - dx * head, by = ty - dy * head;
    const colour = p.kind === "water" ? ink.boats[0] : p.kind === "air" ? ink.boats[1] : ink.ink;
    const short = l < 24;
    out += (short ? "" : `<circle cx="${n(x)}" cy="${n(y)}" r="3" fill="${ink.page}" stroke="${colour}" stroke-width="1.4"/>` + line(x, y, bx, by, ink.page, 6)) +
      line(x, y, bx, by, colour, short ? 1.8 : 2.6, p.kind === "air" && !short ? "7 2.5" : "") +
      path(polyline([[tx, ty], [bx - dy * head * 0.48, by + dx * head * 0.48], [bx + dy * head * 0.48, by - dx * head * 0.48]], "closed"), `fill="${colour}"`);
    notes.push({ x: tx, y: ty, name: p.name, value: p.kind === "weight" ? p.text : `${p.kind} ${p.text}`, kind: p.kind });
  }
  const middle = (columnLeft + columnRight) / 2;
  // columns of like length: what is farthest to a side goes to that side
  const order = notes.slice().sort((p, q) => p.x - q.x);
  const half = Math.min(Math.max(order.filter((p) => p.x < middle).length, Math.floor(notes.length * 0.35)), Math.ceil(notes.length * 0.65));
  [order.slice(0, half), order.slice(half)].forEach((side, k) => {
    const places = apart(side.map((p) => p.y), 32, top + 12, bottom - 16);
    side.forEach((p, i) => {
      const x = k === 0 ? columnLeft - 12 : columnRight + 12, y = places[i], anchor = k === 0 ? "end" : "start";
      const elbow = k === 0 ? columnLeft - 4 : columnRight + 4;
      out += path(polyline([[elbow, y], [elbow + (k === 0 ? 14 : -14), y], [p.x, p.y]]), `fill="none" stroke="${ink.soft}" stroke-width="0.6"`);
      out += text(x, y, p.name, { size: 12, weight: p.kind === "mass" ? undefined : 700, anchor }) + text(x, y + 13.5, p.value, { size: 11.5, anchor, fill: p.kind === "mass" ? ink.soft : undefined });
    });
  });
  return out;
}

// rule draws the scales of length and force.
function rule(f: Front, v: View, ink: Ink, y: number): string {
  const largest = Math.max(1, ...list(f.forces).map((p) => Math.hypot(...p.force)));
  const round = (most: number) => { const p = 10 ** Math.floor(Math.log10(most)); return [5, 2, 1].map((k) => k * p).find((k) => k <= most) ?? p; };
  const metres = round(90 / v.scale), unit = f.newtons_per_unit, force = round((largest / unit) * (80 / longest));
  const a = 28, w = metres * v.scale, h = ((force * unit) / largest) * longest;
  const bar = (x: number, yy: number, l: number, s: string) => line(x, yy, x + l, yy, ink.ink, 1.2) + line(x, yy - 4, x, yy + 4, ink.ink, 1.2) + line(x + l, yy - 4, x + l, yy + 4, ink.ink, 1.2) +
    text(x + l + 8, yy + 4, s, { size: 10.5, fill: ink.soft });
  let out = bar(a, y - 18, w, `${metres} m`) + bar(a, y + 2, h, `${force} ${f.force_unit} of force`);
  out += text(width - 28, y + 18, "outline: dry · filled or hatched: wet · small discs: weights", { size: 10.5, fill: ink.soft, anchor: "end" });
  if (f.crest > 0) out += text(a, y + 18, f.crest_text, { size: 10.5, fill: ink.soft });
  return out;
}

const mostOff = 44; // px that the largest circulation stands off a wing

// wings draws the circulation along the foil that carries most.
function wings(f: Front, v: View, ink: Ink): string {
  return list(f.wings).map((w) => {
    const base = w.at.map((p): [number, number] => [v.x(p[0]), v.y(p[1])]);
    const edge = base.map((p, i): [number, number] => [p[0] + w.off[i][0] * mostOff, p[1] - w.off[i][1] * mostOff]);
    return path(polyline([...base, ...edge.slice().reverse()], "closed"), `fill="${ink.water}" fill-opacity="0.16"`) + path(polyline(edge), `fill="none" stroke="${ink.water}" stroke-width="1.3"`);
  }).join("");
}

// enlarged draws the foil that carries most, with its three centres.
function enlarged(f: Front, ink: Ink, id: string, top: number): [string, number] {
  const marks = list(f.centres);
  if (marks.length === 0) return ["", 0];
  const pieces = list(f.pieces).filter((p) => p.foil === f.detail);
  const wet = pieces.flatMap((p) => p.line.filter((q) => q[1] < 0.12));
  const xs = [...wet.map((p) => p[0]), ...marks.map((m) => m.at[0])], ys = [...wet.map((p) => p[1]), ...marks.map((m) => m.at[1]), 0.05];
  const left = Math.min(...xs), right = Math.max(...xs), low = Math.min(...ys), high = Math.max(...ys);
  const x0 = 60, wide = 520, tall = 170;
  const scale = Math.min(wide / (right - left), (tall - 16) / (high - low || 1));
  const used = Math.max(120, (high - low) * scale + 16);
  const v: View = { scale, x: (m) => x0 + (wide - (right - left) * scale) / 2 + (m - left) * scale, y: (m) => top + 26 + (high - m) * scale };
  const bottom = v.y(low) + 12;
  const sheet = `<clipPath id="${id}-detail"><rect x="${x0 - 24}" y="${n(top + 12)}" width="${wide + 48}" height="${n(used + 20)}"/></clipPath>` +
    `<clipPath id="${id}-dry2"><rect x="0" y="0" width="${width}" height="${n(v.y(0))}"/></clipPath><clipPath id="${id}-under2"><rect x="0" y="${n(v.y(0))}" width="${width}" height="${n(used + 80)}"/></clipPath>`;
  let drawn = line(x0 - 24, v.y(0), x0 + wide + 24, v.y(0), ink.water, 1.2) + wings(f, v, ink);
  for (const p of pieces) {
    const d = polyline(outline(p, v), "closed");
    drawn += path(d, `clip-path="url(#${id}-dry2)" fill="${ink.page}" stroke="${ink.ink}" stroke-width="1"`) +
      path(d, `clip-path="url(#${id}-under2)" fill="${ink.water}" stroke="${ink.water}" stroke-width="1"`);
  }
  if (f.line) {
    const x = v.x(f.line.at[0]), y = v.y(f.line.at[1]), dx = f.line.direction[0], dy = -f.line.direction[1];
    drawn += line(x - dx * 400, y - dy * 400, x + dx * 400, y + dy * 400, ink.ink, 1.1, "12 4 2 4");
  }
  const places = apart(marks.map((m) => v.y(m.at[1])), 34, top + 44, Math.max(bottom, top + 44 + 34 * (marks.length - 1)));
  let out = "";
  marks.forEach((m, i) => {
    const x = v.x(m.at[0]), y = v.y(m.at[1]), column = x0 + wide + 50;
    out += path(polyline([[column - 8, places[i] - 4], [column - 22, places[i] - 4], [x, y]]), `fill="none" stroke="${ink.soft}" stroke-width="0.7"`);
    if (m.kind === "rule") out += path(polyline([[x, y - 8], [x + 8, y], [x, y + 8], [x - 8, y]], "closed"), `fill="${ink.page}" stroke="${ink.ink}" stroke-width="1.6"`);
    else if (m.kind === "loaded") out += `<circle cx="${n(x)}" cy="${n(y)}" r="5" fill="${ink.ink}"/>`;
    else out += line(x - 6, y - 6, x + 6, y + 6, ink.ink, 1.8) + line(x - 6, y + 6, x + 6, y - 6, ink.ink, 1.8);
    out += text(column, places[i], m.name, { size: 12, weight: 700 }) + text(column, places[i] + 13.5, m.text, { size: 11.5, fill: ink.soft });
  });
  const step = scale > 200 ? 0.2 : scale > 80 ? 0.5 : 1, ym = Math.max(bottom, top + 60);
  out += line(x0, ym, x0 + step * scale, ym, ink.ink, 1.2) + line(x0, ym - 4, x0, ym + 4, ink.ink, 1.2) + line(x0 + step * scale, ym - 4, x0 + step * scale, ym + 4, ink.ink, 1.2) +
    text(x0, ym - 7, `${step} m`, { size: 10.5, fill: ink.soft, halo: ink.page });
  const head = text(28, top + 4, `${f.detail_called}, larger: its three centres, and how far each is off the centre of gravity${f.wings_text === "" ? "" : `; shaded: circulation, at most ${f.wings_text}`}`, { size: 11.5, fill: ink.soft });
  return [`<defs>${sheet}</defs>${head}<g clip-path="url(#${id}-detail)">${drawn}</g>${out}`, Math.max(used + 36, places[places.length - 1] - top + 26)];
}
