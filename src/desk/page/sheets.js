// The list of sheets as small pictures, and the plans of the arrangements in the head of the page.

import { element } from './ask.js';

export class Sheets {
  constructor(list, plans, choose) {
    Object.assign(this, { list, plans, choose, known: '' });
    this.seen = new IntersectionObserver((entries) => {
      for (const { isIntersecting, target } of entries) {
        if (isIntersecting && target.dataset.src) { target.src = target.dataset.src; delete target.dataset.src; }
      }
    });
  }

  // Small pictures are asked for only when they come into view.
  show(layout, state, chosen) {
    const heads = state.sheets ?? state.plans.map(({ id, title }) => ({ id, title }));
    this.plans.replaceChildren(...state.plans.map((plan, at) => this.plan(plan, at, chosen)));
    const known = JSON.stringify(heads.map((head) => head.id));
    if (known !== this.known) {
      this.known = known;
      this.list.replaceChildren(...heads.map((head) => this.row(head)));
    }
    for (const button of this.list.querySelectorAll('button')) {
      button.setAttribute('aria-current', String(button.dataset.id === chosen));
      const head = heads.find((one) => one.id === button.dataset.id);
      button.lastChild.textContent = head.title;
      const source = `small/${layout}/${encodeURIComponent(head.id)}?${state.pictures}`;
      const picture = button.firstChild;
      if (state.sheets && picture.dataset.of !== source) {
        picture.dataset.of = picture.dataset.src = source;
        this.seen.unobserve(picture);
        this.seen.observe(picture);
      }
    }
    this.ids = heads.map((head) => head.id);
  }

  plan({ id, title }, at, chosen) {
    const button = element('button', at < 9 ? `${at + 1} ${title}` : title);
    button.type = 'button';
    button.setAttribute('aria-pressed', String(id === chosen));
    button.onclick = () => this.choose(id);
    return button;
  }

  row({ id, title }) {
    const button = element('button'), row = element('li'), picture = element('img');
    picture.alt = '';
    button.type = 'button';
    button.dataset.id = id;
    button.append(picture, element('span', title));
    button.onclick = () => this.choose(id);
    row.append(button);
    return row;
  }
}
