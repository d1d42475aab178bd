// What is told to those who do not see the page: short, and never faster than it can
// be heard.

export const said = $state({ text: "" });

const pause = 900; // ms between two things told
let next = "";
let timer: ReturnType<typeof setTimeout> | undefined;
let free = 0;

// say tells a text; where several come at once the last is told.
export function say(text: string): void {
  next = text;
  clearTimeout(timer);
  timer = setTimeout(() => {
    free = performance.now() + pause;
    said.text = next;
  }, Math.max(150, free - performance.now()));
}
