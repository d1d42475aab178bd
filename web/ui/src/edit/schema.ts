// What may stand where in a boat file, by its JSON Schema.

export interface Schema {
  $ref?: string;
  $defs?: Record<string, Schema>;
  anyOf?: Schema[];
  properties?: Record<string, Schema>;
  additionalProperties?: Schema | boolean;
  propertyNames?: Schema;
  items?: Schema;
  enum?: (string | number | boolean)[];
  const?: string | number;
  type?: string;
  title?: string;
  description?: string;
  examples?: string[];
  pattern?: string;
  units?: string[];
}

// Spot is what the schema says of a place.
export interface Spot {
  help: string;
  takes: Schema[]; // any of these
}

// spread follows references and choices.
function spread(root: Schema, s: Schema, depth = 0): Schema[] {
  if (depth > 12) return [];
  if (s.$ref) {
    const to = root.$defs?.[decodeURIComponent(s.$ref.replace("#/$defs/", ""))];
    return to ? spread(root, to, depth + 1) : [];
  }
  if (!s.anyOf) return [s];
  const own: Schema[] = s.title || s.units ? [{ title: s.title, units: s.units }] : [];
  return [...own, ...s.anyOf.flatMap((o) => spread(root, o, depth + 1))];
}

// described is the help that stands beside a reference, or behind it.
function described(root: Schema, s: Schema): string {
  return s.description ?? spread(root, s).find((o) => o.description && o.const === undefined)?.description ?? "";
}

function below(root: Schema, spot: Spot, key: string): Spot {
  const next: Schema[] = [];
  let help = "";
  for (const s of spot.takes) {
    const sub = key.startsWith("[") ? s.items : s.properties?.[key] ?? (typeof s.additionalProperties === "object" ? s.additionalProperties : undefined);
    if (!sub) continue;
    if (help === "") help = described(root, sub);
    next.push(...spread(root, sub));
  }
  return { help, takes: next };
}

// spotAt returns what may stand under keys.
export function spotAt(root: Schema, keys: string[]): Spot {
  let spot: Spot = { help: root.description ?? "", takes: spread(root, root) };
  for (const key of keys) spot = below(root, spot, key);
  return spot;
}

// keysAt returns the keys that a mapping may have, with help.
export function keysAt(root: Schema, keys: string[]): { key: string; help: string; mapping: boolean }[] {
  const spot = spotAt(root, keys);
  const out = new Map<string, { key: string; help: string; mapping: boolean }>();
  const put = (key: string) => {
    if (out.has(key)) return;
    const sub = below(root, spot, key);
    const single = sub.takes.some((s) => s.type && s.type !== "object" && s.type !== "array");
    out.set(key, { key, help: sub.help, mapping: !single && sub.takes.some((s) => s.properties ?? s.additionalProperties) });
  };
  for (const s of spot.takes) {
    for (const key of Object.keys(s.properties ?? {})) put(key);
    const names = s.propertyNames?.pattern?.match(/\(([a-z |]+)\)\$$/)?.[1];
    for (const key of names?.split("|") ?? []) put(key);
  }
  return [...out.values()];
}

// choicesAt returns values that there is to choose from.
export function choicesAt(root: Schema, keys: string[]): string[] {
  const out = new Set<string>();
  for (const s of spotAt(root, keys).takes) {
    for (const e of s.enum ?? []) out.add(String(e));
    if (s.type === "boolean" && !spotAt(root, keys).takes.some((o) => o.type === "string")) ["true", "false"].forEach((v) => out.add(v));
    if (typeof s.const === "number") out.add(String(s.const));
  }
  return [...out];
}

// unitsAt returns the units that would do, and what kind of figure is wanted.
export function unitsAt(root: Schema, keys: string[]): { kind: string; units: string[]; example: string } {
  const takes = spotAt(root, keys).takes;
  const figure = takes.find((s) => s.units);
  return { kind: figure?.title ?? "", units: figure?.units ?? [], example: takes.find((s) => s.examples)?.examples?.[0] ?? "" };
}
