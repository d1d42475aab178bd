// A view as the part of an address behind #: deflated JSON in the letters of base64url.

import { type View, blank } from "./desk.svelte";

async function through(bytes: Uint8Array, by: CompressionStream | DecompressionStream): Promise<Uint8Array> {
  const source = new Blob([bytes as BlobPart]).stream().pipeThrough(by as unknown as ReadableWritablePair<Uint8Array, Uint8Array>);
  return new Uint8Array(await new Response(source).arrayBuffer());
}

// pack writes what of a view differs from a blank one.
export async function pack(v: View): Promise<string> {
  const said = Object.fromEntries(Object.entries(v).filter(([k, x]) => JSON.stringify(x) !== JSON.stringify(blank[k as keyof View])));
  const packed = await through(new TextEncoder().encode(JSON.stringify(said)), new CompressionStream("deflate-raw"));
  return btoa(String.fromCharCode(...packed)).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
}

const longest = 20000; // letters of a link

// unpack reads a link; null where it says nothing that can be read.
export async function unpack(text: string): Promise<Partial<View> | null> {
  if (text === "" || text.length > longest) return null;
  try {
    const letters = atob(text.replace(/-/g, "+").replace(/_/g, "/"));
    const bytes = Uint8Array.from(letters, (c) => c.charCodeAt(0));
    const said = JSON.parse(new TextDecoder().decode(await through(bytes, new DecompressionStream("deflate-raw")))) as unknown;
    return sound(said);
  } catch {
    return null;
  }
}

// sound keeps of what a link or the history says only what is of the kind that a view has there.
export function sound(said: unknown): Partial<View> | null {
  if (typeof said !== "object" || said === null) return null;
  const kept: Record<string, unknown> = {};
  for (const [k, x] of Object.entries(said)) {
    if (!(k in blank)) continue;
    const usual = blank[k as keyof View];
    if (usual === null ? x === null || typeof x === "number" : typeof x === typeof usual && Array.isArray(x) === Array.isArray(usual) && x !== null) kept[k] = x;
  }
  return kept as Partial<View>;
}
