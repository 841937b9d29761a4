// The sheet, large: in a shadow root of its own, moved and scaled by one transform.

const LEAST = 0.5, MOST = 40, GLOW = 1200, LIT = `
  .lit > path { stroke: #0b57a4; stroke-width: 0.9; }
  .lit > text { fill: #0b57a4; }
  @keyframes glow { from { filter: drop-shadow(0 0 2px #d98200) drop-shadow(0 0 2px #d98200); } to { filter: none; } }
  .new { animation: glow 1.2s ease-out; }
  .item { cursor: pointer; }
  svg { display: block; width: 100%; height: 100%; }`;

export class Stage {
  constructor(host, paper, picked) {
    Object.assign(this, { host, paper, picked, x: 0, y: 0, scale: 1, sheet: null });
    this.root = paper.attachShadow({ mode: 'open' });
    this.own = new CSSStyleSheet();
    this.own.replaceSync(LIT);
    this.listen();
    new ResizeObserver(() => this.fit(false)).observe(host);
  }

  // Shows a sheet; what differs from the same sheet before glows for a second.
  show(id, title, inset) {
    if (this.sheet === id && this.text === inset.svg) return;
    this.text = inset.svg;
    const drawn = new DOMParser().parseFromString(inset.svg, 'image/svg+xml').documentElement;
    const before = this.sheet === id ? this.groups() : null;
    if (drawn.nodeName !== 'svg') return;
    const style = new CSSStyleSheet();
    style.replaceSync(inset.style);
    this.root.adoptedStyleSheets = [style, this.own];
    this.root.replaceChildren(document.adoptNode(drawn));
    this.host.setAttribute('aria-label', title);
    if (before) this.glow(before);
    const other = this.sheet !== id;
    this.sheet = id;
    this.fit(other);
    this.light(this.lit ?? []);
  }

  svg() { return this.root.querySelector('svg'); }

  groups() {
    const all = new Map();
    for (const group of this.root.querySelectorAll('.item')) all.set(group.id, group.innerHTML);
    return all;
  }

  // What glowed a moment ago goes on, although the sheet came again.
  glow(before) {
    if (Date.now() - (this.since ?? 0) > GLOW) this.fresh = new Set();
    for (const group of this.root.querySelectorAll('.item')) {
      const own = !group.closest('.layer-frame') && !group.querySelector('.item');
      if (own && before.get(group.id) !== group.innerHTML) {
        this.fresh.add(group.id);
        this.since = Date.now();
      }
      group.classList.toggle('new', own && this.fresh.has(group.id));
    }
  }

  // The plain name of a group: `module-galley`.
  static name(group) {
    const layer = group.closest('.layer');
    return layer && group.id.startsWith(layer.id + '-') ? group.id.slice(layer.id.length + 1) : group.id;
  }

  named(name) {
    const is = (group) => Stage.name(group) === name || Stage.name(group).replace(/-\d+$/, '') === name;
    return [...this.root.querySelectorAll('.item')].filter(is);
  }

  // Lights groups up by their names, and moves the sheet so that the first is seen.
  light(names, move = false) {
    this.lit = names;
    for (const group of this.root.querySelectorAll('.lit')) group.classList.remove('lit');
    const all = names.flatMap((name) => this.named(name));
    for (const group of all) group.classList.add('lit');
    if (move && all.length) this.reveal(all[0]);
    return all.length;
  }

  reveal(group) {
    const box = group.getBoundingClientRect(), host = this.host.getBoundingClientRect();
    const inside = box.left >= host.left && box.right <= host.right && box.top >= host.top && box.bottom <= host.bottom;
    if (inside) return;
    this.x += host.left + host.width / 2 - (box.left + box.width / 2);
    this.y += host.top + host.height / 2 - (box.top + box.height / 2);
    this.place();
  }

  // The whole sheet in the middle.
  fit(again = true) {
    const svg = this.svg(), host = this.host.getBoundingClientRect();
    if (!svg || !host.width) return;
    const box = svg.viewBox.baseVal;
    const whole = Math.min(host.width / box.width, host.height / box.height) * 0.97;
    if (!again && this.whole) { this.whole = whole; return; }
    this.whole = whole;
    this.size = [box.width * whole, box.height * whole];
    Object.assign(this, { scale: 1, x: (host.width - this.size[0]) / 2, y: (host.height - this.size[1]) / 2 });
    this.paper.style.width = `${this.size[0]}px`;
    this.paper.style.height = `${this.size[1]}px`;
    this.place();
  }

  place() {
    this.paper.classList.add('moving');
    this.paper.style.transform = `translate(${this.x}px, ${this.y}px) scale(${this.scale})`;
    clearTimeout(this.still);
    // Drawn sharp once it is still.
    this.still = setTimeout(() => this.paper.classList.remove('moving'), 180);
  }

  zoom(by, at) {
    const host = this.host.getBoundingClientRect();
    const [x, y] = at ?? [host.width / 2, host.height / 2];
    const scale = Math.min(MOST, Math.max(LEAST, this.scale * by));
    this.x = x - (x - this.x) * scale / this.scale;
    this.y = y - (y - this.y) * scale / this.scale;
    this.scale = scale;
    this.place();
  }

  move(x, y) { this.x += x; this.y += y; this.place(); }

  listen() {
    const { host } = this;
    let held = null;
    host.addEventListener('wheel', (event) => {
      event.preventDefault();
      const box = host.getBoundingClientRect();
      this.zoom(Math.exp(-event.deltaY * 0.0015), [event.clientX - box.left, event.clientY - box.top]);
    }, { passive: false });
    host.addEventListener('pointerdown', (event) => { held = [event.clientX, event.clientY, 0]; });
    host.addEventListener('pointermove', (event) => {
      if (!held || !event.buttons) return;
      const [x, y] = [event.clientX - held[0], event.clientY - held[1]];
      held = [event.clientX, event.clientY, held[2] + Math.abs(x) + Math.abs(y)];
      host.classList.add('held');
      this.move(x, y);
    });
    host.addEventListener('pointerup', () => { host.classList.remove('held'); });
    host.addEventListener('click', (event) => {
      const moved = held && held[2] > 4;
      held = null;
      const target = event.composedPath()[0];
      const group = target.closest ? target.closest('.item') : null;
      if (group?.closest('a')) event.preventDefault();
      if (!moved) this.picked(group && Stage.name(group), group?.closest('a')?.getAttribute('href'));
    });
  }
}
