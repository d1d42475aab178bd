// Where one is in the text of a boat file: under which keys, and whether at a key or at
// a value. It reads half-written text, which a parser would refuse.

export interface Place {
  keys: string[]; // from the outermost; items of lists as "[2]"
  at: "key" | "value";
  from: number; // where what is being written begins
  typed: string; // from there to the place asked about
}

// Key is a key of the file.
export interface Key {
  keys: string[];
  from: number;
  to: number;
}

interface Frame { indent: number; key: string; item: number } // item: of a list, from 1; 0 for a key
interface Open { map: boolean; key: string | null; item: number; from: number }

const named = (f: Frame) => (f.item > 0 ? `[${f.item}]` : f.key);
const bare = (key: string) => key.trim().replace(/^(["'])(.*)\1$/, "$2");

class Walk {
  frames: Frame[] = [];
  flow: Open[] = [];
  found: Key[] = [];
  place: Place | null = null;
  remark = false; // what is asked about stands in a comment
  constructor(readonly text: string, readonly asked: number) {}

  keys(): string[] {
    const inside = this.flow.flatMap((o) => (o.map ? (o.key === null ? [] : [o.key]) : [`[${o.item}]`]));
    return [...this.frames.map(named), ...inside];
  }

  tell(at: "key" | "value", from: number): void {
    this.place ??= { keys: this.keys(), at, from, typed: this.text.slice(from, this.asked) };
  }

  run(): void {
    let i = 0;
    while (i <= this.text.length) {
      const end = this.lineEnd(i);
      i = Math.max(this.line(i, end), end) + 1;
    }
  }

  lineEnd(i: number): number {
    const end = this.text.indexOf("\n", i);
    return end < 0 ? this.text.length : end;
  }

  // line reads a line and returns where it, or the braces that it opens, end.
  line(start: number, end: number): number {
    const here = this.asked >= start && this.asked <= end;
    let i = start;
    while (i < end && this.text[i] === " ") i++;
    if (i >= end || this.text[i] === "#" || this.text[i] === "\r") {
      if (here && (this.text[i] !== "#" || this.asked <= i)) {
        this.close(this.asked - start);
        this.tell("key", this.asked);
      }
      return end;
    }
    while (this.text[i] === "-" && /[\s]|$/.test(this.text[i + 1] ?? "")) i = this.item(i, i - start);
    return this.entry(i, end, i - start, here);
  }

  close(indent: number): void {
    while (this.frames.length > 0 && this.frames.at(-1)!.indent >= indent) this.frames.pop();
  }

  item(i: number, indent: number): number {
    while (this.frames.length > 0 && this.frames.at(-1)!.indent > indent) this.frames.pop();
    const last = this.frames.at(-1);
    if (last && last.indent === indent && last.item > 0) last.item++;
    else this.frames.push({ indent, key: "", item: 1 });
    i++;
    while (this.text[i] === " ") i++;
    return i;
  }

  // entry reads what a line says behind its indentation and the marks of lists.
  entry(i: number, end: number, indent: number, here: boolean): number {
    const colon = "{[".includes(this.text[i] ?? " ") ? -1 : this.colon(i, end);
    // An item of a list has its keys in the column behind its mark.
    if (this.frames.at(-1)?.item === 0 || colon >= 0) this.closeKeys(indent);
    if (colon < 0) {
      const value = this.frames.at(-1)?.item !== 0 && this.frames.length > 0;
      if (here && this.asked >= i && !"{[".includes(this.text[i] ?? " ")) this.tell(value && !/^[a-z][a-z ]*$/i.test(this.text.slice(i, this.asked)) ? "value" : "key", i);
      return this.value(i, end);
    }
    if (here && this.asked <= colon) this.tell("key", Math.min(i, this.asked));
    const key = bare(this.text.slice(i, colon));
    this.frames.push({ indent, key, item: 0 });
    this.found.push({ keys: this.keys(), from: i, to: colon });
    let v = colon + 1;
    while (this.text[v] === " ") v++;
    if (here && this.asked > colon && !"{[".includes(this.text[v] ?? " ")) {
      const hash = this.text.slice(v, end).search(/(^|\s)#/);
      if (hash < 0 || this.asked <= v + hash) this.tell("value", Math.min(v, this.asked));
    }
    return this.value(v, end);
  }

  closeKeys(indent: number): void {
    while (this.frames.length > 0 && (this.frames.at(-1)!.indent > indent || (this.frames.at(-1)!.indent === indent && this.frames.at(-1)!.item === 0))) this.frames.pop();
  }

  // colon finds the colon behind a key.
  colon(i: number, end: number): number {
    const quote = this.text[i] === '"' || this.text[i] === "'" ? this.text[i]! : "";
    for (let j = i + 1; j < end; j++) {
      if (quote !== "" && j > i && this.text[j] === quote) {
        const rest = this.text.slice(j + 1, end);
        return /^\s*:(\s|$)/.test(rest) ? j + 1 + rest.indexOf(":") : -1;
      }
      if (quote !== "") continue;
      if (this.text[j] === "#" && this.text[j - 1] === " ") return -1;
      if (this.text[j] === ":" && /^[\s]?$/.test(this.text[j + 1] ?? "")) return j;
    }
    return -1;
  }

  value(i: number, end: number): number {
    return "{[".includes(this.text[i] ?? " ") ? this.braces(i) : end;
  }

  // braces reads what stands in braces, over as many lines as it takes.
  braces(i: number): number {
    let quote = "";
    for (; i < this.text.length; i++) {
      const c = this.text[i]!;
      const o = this.flow.at(-1);
      if (i === this.asked && o) this.within(o, i);
      if (quote !== "") {
        if (c === quote) quote = "";
      } else if ((c === '"' || c === "'") && /[\s,[{:]/.test(this.text[i - 1] ?? " ")) quote = c;
      else if (c === "#" && /\s/.test(this.text[i - 1] ?? " ")) {
        const end = this.lineEnd(i);
        if (this.asked > i && this.asked <= end) this.remark = true;
        if (o && this.text.slice(o.from, i).trim() === "") o.from = end;
        i = end - 1;
      } else if (c === "{" || c === "[") this.flow.push({ map: c === "{", key: null, item: 1, from: i + 1 });
      else if (c === "}" || c === "]") {
        this.flow.pop();
        if (this.flow.length === 0) return i;
      } else if (c === "," && o) {
        o.key = null;
        o.item++;
        o.from = i + 1;
      } else if (c === ":" && o?.map && o.key === null && /^[\s]?$/.test(this.text[i + 1] ?? "")) {
        o.key = bare(this.text.slice(o.from, i));
        const lead = this.text.slice(o.from).search(/\S/);
        this.found.push({ keys: this.keys(), from: o.from + Math.max(0, lead), to: i });
        o.from = i + 1;
      }
    }
    const o = this.flow.at(-1);
    if (i === this.asked && o) this.within(o, i);
    this.flow = [];
    return i;
  }

  within(o: Open, i: number): void {
    let from = o.from;
    while (from < i && /\s/.test(this.text[from]!)) from++;
    this.tell(o.map && o.key === null ? "key" : "value", from);
  }
}

// placeAt tells where a place of a text is; null within a comment.
export function placeAt(text: string, at: number): Place | null {
  const walk = new Walk(text, at);
  walk.run();
  return walk.remark ? null : walk.place;
}

// outline lists the keys of a text.
export function outline(text: string): Key[] {
  const walk = new Walk(text, -1);
  walk.run();
  return walk.found;
}

// pathOf joins keys to a path as faults and figures carry it.
export function pathOf(keys: string[]): string {
  return keys.join(".").replaceAll(".[", "[");
}
