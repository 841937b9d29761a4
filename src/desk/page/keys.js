// The keyboard alone is enough.

import { element } from './ask.js';

export function keys(does, help, list) {
  const all = [
    [['1', '…', '9'], 'plan of an arrangement', null],
    [['n'], 'next sheet', () => does.sheet(1)],
    [['p'], 'sheet before', () => does.sheet(-1)],
    [['f'], 'next finding', () => does.finding(1)],
    [['g'], 'finding before', () => does.finding(-1)],
    [['+'], 'larger', () => does.zoom(1.25)],
    [['-'], 'smaller', () => does.zoom(0.8)],
    [['0'], 'the whole sheet', () => does.whole()],
    [['←', '→', '↑', '↓'], 'move the sheet, when it has the focus', null],
    [['Esc'], 'let go of what is lit', () => does.nothing()],
    [['?'], 'these keys', () => help.showModal()],
  ];
  for (const [names, says] of all) {
    const term = element('dt');
    for (const name of names) term.append(element(name === '…' ? 'span' : 'kbd', name), ' ');
    list.append(term, element('dd', says));
  }
  const moves = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] };
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || help.open) return;
    if (/^(select|input|textarea)$/i.test(event.target.tagName)) return;
    const { key } = event;
    const move = moves[key];
    if (move && document.activeElement?.id === 'stage') { does.move(...move); event.preventDefault(); return; }
    if (/^[1-9]$/.test(key)) { does.plan(Number(key) - 1); return; }
    const found = all.find(([names, , act]) => act && names.includes(key === 'Escape' ? 'Esc' : key === '=' ? '+' : key));
    if (found) { found[2](); event.preventDefault(); }
  });
}
