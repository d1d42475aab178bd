// What may be written at a place: keys, names of parts, choices and units.

import { type Key, outline, placeAt } from "./place";
import { type Schema, choicesAt, keysAt, spotAt, unitsAt } from "./schema";

export interface Offer {
  label: string;
  apply: string;
  help: string;
  kind: "key" | "name" | "choice" | "unit";
}

export interface Offers { from: number; offers: Offer[] }

// namesBelow lists the names that stand under keys.
function namesBelow(all: Key[], above: string[]): string[] {
  const at = above.join("\n");
  return [...new Set(all.filter((k) => k.keys.length === above.length + 1 && k.keys.slice(0, -1).join("\n") === at).map((k) => k.keys.at(-1)!))];
}

// names lists the parts that a value may name; unknowns are those that the boat knows,
// those of shared files among them.
function names(all: Key[], keys: string[], unknowns: string[]): Offer[] {
  const last = keys.findLast((k) => !k.startsWith("[")) ?? "";
  const foil = keys[0] === "foils" ? keys.slice(0, 2) : [];
  const own = keys.at(-2);
  const offer = (list: string[], help: string) => list.map((n): Offer => ({ label: n, apply: n, help, kind: "name" }));
  const pieces = () => namesBelow(all, [...foil, "pieces"]).filter((n) => n !== own);
  if (last === "times" || last === "plus") return offer([...new Set([...namesBelow(all, ["unknowns"]), ...unknowns])], "shared unknown");
  if (foil.length > 0 && last === "as") return offer(pieces(), "piece of this foil");
  if (foil.length > 0 && last === "from") return [...offer(["root"], "where the foil starts"), ...offer(pieces().map((p) => p + " tip"), "tip of a piece")];
  if (foil.length > 0 && last === "angle") return offer(namesBelow(all, [...foil, "controls"]), "control of this foil");
  if (keys[0] === "bodies" && last === "on") return [...offer(["hull"], "what floats"), ...offer(namesBelow(all, ["foils"]).map((f) => "foils." + f), "foil")];
  if (keys[0] === "sets") return offer(namesBelow(all, ["sails"]), "sail");
  if (keys[0] === "modes" && last === "sets") return offer(namesBelow(all, ["sets"]), "set of sails");
  if (keys[0] === "sails" && last === "with") return offer(namesBelow(all, ["sails"]), "sail");
  return [];
}

// keyNames lists names of parts where a key is the name of one.
function keyNames(all: Key[], keys: string[]): Offer[] {
  if (keys[0] === "modes" && keys.length === 2) {
    return namesBelow(all, ["foils"]).flatMap((f) => ["leeward " + f, "windward " + f].map((n): Offer => ({ label: n, apply: n + ": ", help: "ranges of its controls in this mode", kind: "key" })));
  }
  return [];
}

// offersAt returns what may be written at a place of a text.
export function offersAt(schema: Schema, text: string, at: number, unknowns: string[]): Offers | null {
  const place = placeAt(text, at);
  if (!place) return null;
  const all = outline(text);
  if (place.at === "key") {
    const have = new Set(namesBelow(all, place.keys));
    have.delete(place.typed.trim());
    const offers = keysAt(schema, place.keys).map((k): Offer => ({ label: k.key, apply: k.key + ": ", help: k.help, kind: "key" }));
    return { from: place.from, offers: [...offers, ...keyNames(all, place.keys)].filter((o) => !have.has(o.label)) };
  }
  const number = /^(.*[\d.])( *)([a-zA-Z°²³/%µ·]*)$/.exec(place.typed);
  if (number) {
    const { kind, units } = unitsAt(schema, place.keys);
    const gap = number[2] === "" ? " " : "";
    return { from: at - number[3]!.length, offers: units.map((u) => ({ label: u, apply: gap + u, help: kind, kind: "unit" })) };
  }
  const choices = choicesAt(schema, place.keys).map((c): Offer => ({ label: c, apply: c, help: "", kind: "choice" }));
  return { from: place.from, offers: [...choices, ...names(all, place.keys, unknowns)] };
}

// Hint is what one reads of a place when pointing at it.
export interface Hint { from: number; to: number; path: string[]; help: string; kind: string; units: string[]; example: string }

// hintAt tells what the key at a place means, or the key whose value stands there.
export function hintAt(schema: Schema, text: string, at: number): Hint | null {
  const place = placeAt(text, at);
  if (!place) return null;
  const all = outline(text);
  const key = place.at === "key"
    ? all.find((k) => k.from <= at && at <= k.to)
    : all.findLast((k) => k.from <= at && k.keys.join("\n") === place.keys.filter((_, i) => i < k.keys.length).join("\n") && !place.keys.slice(k.keys.length).some((x) => !x.startsWith("[")));
  if (!key) return null;
  const spot = spotAt(schema, key.keys);
  const figure = unitsAt(schema, key.keys);
  if (spot.help === "" && figure.kind === "") return null;
  return { from: key.from, to: key.to, path: key.keys, help: spot.help, ...figure };
}
