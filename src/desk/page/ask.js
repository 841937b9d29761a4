// What the page asks of the desk. All addresses are relative, so the secret stays where it is.

export async function ask(path) {
  const answer = await fetch(path, { cache: 'no-store' });
  if (!answer.ok) return null;
  return answer.json();
}

// Calls `heard` for each piece of news, `lost` when the desk has gone; the browser tries again by itself.
export function listen(heard, lost) {
  const source = new EventSource('events');
  source.onmessage = (event) => heard(JSON.parse(event.data));
  source.onerror = () => lost();
  return source;
}

// An element with words, never with markup: titles and names come from files.
export function element(name, words = '', classes = '') {
  const made = document.createElement(name);
  if (words) made.textContent = words;
  if (classes) made.className = classes;
  return made;
}
