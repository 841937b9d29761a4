// The desk: asks for what is new, and shows it. The old picture stays until the new one is there.

import { ask, element, listen } from './ask.js';
import { numbered, showErrors, showFindings } from './findings.js';
import { keys } from './keys.js';
import { Sheets } from './sheets.js';
import { Stage } from './stage.js';

const at = (id) => document.getElementById(id);
let layout = 0, state = null, chosen = null, lit = 0, asked = 0;

const stage = new Stage(at('stage'), at('paper'), picked);
const sheets = new Sheets(at('sheets'), at('plans'), choose);

function say(words) { at('status').textContent = words; }

// Everything of the layout; a later question makes an earlier one void.
async function look() {
  const mine = ++asked;
  const told = await ask(`layout/${layout}`);
  if (!told || mine !== asked) return;
  state = told;
  document.title = `${state.title || state.path}, Boxwright desk`;
  at('title').textContent = state.title || state.path;
  at('stamp').hidden = !state.stamp;
  at('stamp').textContent = state.stamp ?? '';
  showErrors(at('errors'), state.report);
  showFindings(at('findings'), state, at('notes').checked, light);
  const ids = (state.sheets ?? state.plans).map((sheet) => sheet.id);
  if (!ids.includes(chosen)) chosen = state.plans[0]?.id ?? ids[0] ?? null;
  sheets.show(layout, state, chosen);
  say(summary());
  await draw(mine);
  document.body.dataset.revision = state.revision;
}

async function draw(mine) {
  const { pictures, revision } = state;
  if (chosen) {
    const id = chosen;
    const inset = await ask(`sheet/${layout}/${encodeURIComponent(id)}`);
    if (mine !== asked || !inset) return;
    const head = (state.sheets ?? state.plans).find((sheet) => sheet.id === id);
    stage.show(id, head?.title ?? id, inset);
  }
  // Sheets of an earlier text stay, and say so.
  at('stage').classList.toggle('old', Boolean(pictures) && pictures !== revision);
}

function summary() {
  const { report } = state;
  if (!state.compiles) return `does not compile: ${report.errors.length} to mend`;
  const count = (severity) => report.findings.filter((one) => one.severity === severity && !one.accepted).length;
  const [faults, cautions] = [count('fault'), count('caution')];
  return faults + cautions ? `${faults} faults, ${cautions} cautions` : 'no fault, no caution';
}

function choose(id) {
  chosen = id;
  sheets.show(layout, state, chosen);
  return draw(++asked);
}

// Lights a finding up on the plan of an arrangement that it holds in.
async function light(number, finding) {
  lit = number;
  for (const row of at('findings').querySelectorAll('button')) {
    row.setAttribute('aria-current', String(Number(row.dataset.number) === number));
  }
  const names = [`finding-${number}`];
  const here = () => stage.light(names, true);
  if (here()) return;
  const plan = state.plans.find((one) => !finding.arrangements.length || finding.arrangements.includes(one.title));
  if (plan && plan.id !== chosen) await choose(plan.id);
  if (!here()) stage.light([`module-${finding.subject}`, `opening-${finding.subject}`, `zone-${finding.subject}`], true);
}

// Something of a sheet was clicked.
async function picked(name, link) {
  const sheet = link?.match(/^([^#]+)\.svg(#|$)/)?.[1];
  if (sheet && (state.sheets ?? []).some((one) => one.id === sheet)) { await choose(sheet); return; }
  const number = Number(name?.match(/finding-(\d+)$/)?.[1]);
  const found = numbered(state.report).find((one) => one.number === number);
  if (found) { light(number, found.finding); return; }
  const told = name ? await ask(`about/${layout}/${encodeURIComponent(name)}`) : null;
  at('about').hidden = !told;
  stage.light(told ? [name, name.replace(/-\d+$/, '')] : []);
  if (told) showAbout(told);
}

function showAbout(told) {
  at('about-name').textContent = told.name;
  at('about-says').textContent = told.says;
  at('about-place').textContent = `${told.file}:${told.line}`;
  at('about-text').textContent = told.text ?? '';
  const rows = told.values.map(({ name, value, write }) => {
    const row = element('tr'), copy = element('td');
    const head = element('th', name);
    head.scope = 'row';
    if (write) {
      const button = element('button', 'copy');
      button.type = 'button';
      button.title = button.ariaLabel = `copy ${write}`;
      button.onclick = () => navigator.clipboard.writeText(write).then(() => say(`copied ${write}`));
      copy.append(button);
    }
    row.append(head, element('td', value), copy);
    return row;
  });
  at('about-values').tBodies[0].replaceChildren(...rows);
}

function step(list, now, by) {
  return list.length ? list[(list.indexOf(now) + by + list.length) % list.length] : null;
}

keys({
  sheet: (by) => { const id = step(sheets.ids ?? [], chosen, by); if (id) choose(id); },
  plan: (which) => { const plan = state?.plans[which]; if (plan) choose(plan.id); },
  finding: (by) => {
    const rows = [...at('findings').querySelectorAll('button')];
    const row = step(rows, rows.find((one) => Number(one.dataset.number) === lit), by);
    row?.focus();
    row?.click();
  },
  zoom: (by) => stage.zoom(by),
  whole: () => stage.fit(),
  move: (x, y) => stage.move(x, y),
  nothing: () => { stage.light([]); at('about').hidden = true; lit = 0; },
}, at('help'), at('help-keys'));

at('keys').onclick = () => at('help').showModal();
at('notes').onchange = () => showFindings(at('findings'), state, at('notes').checked, light);
at('layout').onchange = () => { layout = Number(at('layout').value); chosen = null; lit = 0; look(); };

const paths = await ask('layouts') ?? [];
at('which').hidden = paths.length < 2;
at('layout').append(...paths.map((path, number) => Object.assign(element('option', path), { value: number })));

listen((news) => {
  if (news.what === 'hello' || news.layout === layout) look();
}, () => say('the desk does not answer; it may have been ended'));
