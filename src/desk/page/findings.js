// Findings as a list whose rows light up their place, and errors above the sheet.

import { element } from './ask.js';

const at = (place) => place ? `${place.file}:${place.line}:${place.column}` : '';

// Findings with the numbers that they have on the sheets.
export function numbered(report) {
  return report.findings.filter((one) => one.severity !== 'met').map((finding, index) => ({ finding, number: index + 1 }));
}

export function showFindings(list, { report, compiles }, all, choose) {
  const shown = numbered(report).filter(({ finding }) => all || (!finding.accepted && finding.severity !== 'note'));
  const rows = shown.map(({ finding, number }) => {
    const button = element('button', '', finding.severity + (finding.accepted ? ' accepted' : ''));
    button.type = 'button';
    button.dataset.number = number;
    button.append(element('b', `${number} ${finding.severity}`), ` ${finding.check} of ${finding.subject}: ${finding.message}`);
    if (finding.arrangements.length) button.append(element('div', finding.arrangements.join(', '), 'say'));
    if (finding.accepted) button.append(element('div', `accepted: ${finding.accepted}`, 'say'));
    if (finding.suggestion) button.append(element('div', `try: ${finding.suggestion.words}`, 'try'));
    if (finding.help) button.append(element('div', finding.help, 'say'));
    if (finding.places.length) button.append(element('div', at(finding.places[0]), 'place'));
    button.onclick = () => choose(number, finding);
    const row = element('li');
    row.append(button);
    return row;
  });
  const none = compiles ? 'No fault, no caution.' : 'Nothing is checked until it compiles.';
  if (!rows.length) rows.push(element('li', none, 'say'));
  list.replaceChildren(...rows);
}

export function showErrors(section, report) {
  section.hidden = report.errors.length === 0;
  const rows = report.errors.map((error) => {
    const row = element('li');
    row.append(element('strong', error.message), ' ', element('span', at(error.place), 'place'));
    if (error.label) row.append(element('div', error.label, 'say'));
    if (error.help) row.append(element('div', error.help, 'say'));
    if (error.suggestion) row.append(element('div', `try: ${error.suggestion.words}`, 'try'));
    return row;
  });
  const list = element('ol');
  list.append(...rows);
  section.replaceChildren(list);
}
