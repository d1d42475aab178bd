// What a picture shows, as package figure writes it. Texts are final; numbers place marks.

export interface Num { at: number; text: string }
export interface Named extends Num { name: string }
export type Place = [number, number];

export interface Chart {
  kind: string;
  title: string;
  under: string;
  summary: string;
  foot: string[];
  front?: Front;
  waterfall?: Waterfall;
  spread?: { axis: string; pairs: Pair[]; scale: string; boats: { name: string; bands: Band[]; middle: Num }[] };
  angles?: Angles;
  bars?: { axis: string; boats: string[]; rows: { name: string; rank: string; bars: (Num | null)[] }[] };
  margins?: { boat: string; rows: Margin[] };
  level: string;
  width?: number; // px
  table?: { head: string[]; rows: string[][] };
  winds?: Winds;
  tornado?: { axis: string; rows: { name: string; says: string; low: Num | null; high: Num | null }[] };
}

export interface Mark { kind: string; at: Place; name: string; text: string }
export interface Pull extends Mark { force: Place }

export interface Front {
  boat: string;
  hulls: Place[][] | null;
  pieces: { foil: string; line: Place[]; thick: number[] }[] | null;
  bodies: { at: Place; diameter: number }[] | null;
  spars: [Place, Place][] | null;
  luffs: [Place, Place][] | null;
  weights: Mark[] | null;
  forces: Pull[] | null;
  centres: Mark[] | null;
  line?: { at: Place; direction: Place };
  lever?: { from: Place; to: Place; text: string; between: string };
  detail: string;
  detail_called: string;
  wings: { at: Place[]; off: Place[] }[] | null;
  wings_text: string;
  crest: number;
  crest_text: string;
  force_unit: string;
  newtons_per_unit: number;
}

export interface Waterfall {
  axis: string;
  first: Named;
  last: Named;
  whole: Num;
  steps: (Named & { error: number; said: string })[];
}

export interface Pair {
  first: string;
  second: string;
  dots: number[] | null;
  dots_say: string;
  places: [number, number];
  bands: Band[];
  middle: Num;
  chances: [string, string];
  call: string;
}

export interface Band { level: string; from: Num; to: Num }

export interface AngleAt { angle: number; speed: number; at: string; reads: string }
export interface WindCurve {
  boat: number;
  wind: string;
  name: string;
  runs: AngleAt[][];
  best: (AngleAt & { name: string; text: string; from: number; to: number })[];
  gaps: [number, number][];
  ways: { from: number; to: number; name: string }[];
  crossovers: { angle: number; text: string }[];
  warned: { from: number; to: number; why: string }[];
}
export interface Angles {
  boats: string[];
  axis: string;
  winds: WindCurve[];
  gains: { name: string; points: (Num & { angle: number })[] }[];
  gain_axis: string;
}

export interface WindLine { name: string; points: { wind: Num; value: Num | null; bands: Band[] }[] }
export interface Winds { axis: string; across: string; boats: WindLine[]; gain_axis: string; gains: WindLine[] }

export interface Margin {
  name: string;
  at: number | null;
  stand: string;
  lower: string;
  upper: string;
  value: string;
  room: string;
  price: string;
}
