// What can be done to a row of the recipe without opening its fields: reached, moved, taken out, joined, added to.
import { choose, focusRow, rowOf } from './choosing.js';
import { attempt, desk, say, shownDish, unsureItems, unsureOf } from './desk.js';
import { byId, tell } from './dom.js';

const rows = () => [...byId('dish').querySelectorAll('.row[data-key]')];

export function moveFocus(step) {
  const all = rows();
  const now = all.indexOf(document.activeElement?.closest?.('.row[data-key]'));
  const next = all[now < 0 ? 0 : Math.min(Math.max(now + step, 0), all.length - 1)];
  if (!next) return;
  focusRow(next);
}

export const focusedRow = () => document.activeElement?.closest?.('#dish .row[data-key]');

/** Move a line or step one place up (-1) or down (1); a line goes on into the next part. */
export async function moveRow(step) {
  const row = focusedRow();
  const dish = shownDish();
  if (!row) return;
  const key = row.dataset.key;
  if (row.dataset.kind === 'step') {
    const at = dish.steps.findIndex((one) => one.key === key) + step;
    if (at >= 0 && at < dish.steps.length) await attempt({ do: 'move step', step: key, at });
  } else if (row.dataset.kind === 'line') {
    const part = dish.parts.findIndex((one) => one.lines.some((line) => line.key === key));
    const at = dish.parts[part].lines.findIndex((line) => line.key === key) + step;
    const inside = at >= 0 && at < dish.parts[part].lines.length;
    const target = inside ? dish.parts[part] : dish.parts[part + step];
    if (target) await attempt({ do: 'move line', line: key, part: target.key, at: inside ? at : step > 0 ? 0 : target.lines.length });
  }
  if (rowOf(key)) focusRow(rowOf(key));
}

export async function removeRow() {
  const row = focusedRow();
  if (!row) return;
  const all = rows();
  const next = (all[all.indexOf(row) + 1] || all[all.indexOf(row) - 1])?.dataset.key;
  const { key, kind } = row.dataset;
  const edits = {
    line: { do: 'remove line', line: key },
    step: { do: 'remove step', step: key },
    share: { do: 'set share', share: key, remove: true },
    part: { do: 'remove part', part: key },
  };
  if (edits[kind] && (await attempt(edits[kind])) && rowOf(next)) focusRow(rowOf(next));
}

export async function joinRow() {
  const row = focusedRow();
  if (!row) return;
  const { key, kind } = row.dataset;
  if (kind === 'step') await attempt({ do: 'join step', step: key });
  if (kind === 'dish') await attempt({ do: 'join dish', dish: key });
  if (rowOf(key)) focusRow(rowOf(key));
}

export async function toggleOptional() {
  const row = focusedRow();
  if (row?.dataset.kind !== 'line') return;
  const line = shownDish().parts.flatMap((part) => part.lines).find((one) => one.key === row.dataset.key);
  await attempt({ do: 'set line', line: line.key, optional: !line.optional });
}

/** A new line below the chosen one (a step below a step), its fields open. */
export async function addRow() {
  const row = focusedRow();
  if (row?.dataset.kind === 'step') await addStep(shownDish(), row.dataset.key);
  else await addLine(row?.dataset.key);
}

export async function addLine(after) {
  const dish = shownDish();
  const part = dish.parts.find((one) => one.key === after || one.lines.some((line) => line.key === after)) || dish.parts[0];
  if (!part) return;
  await addThen({ do: 'add line', part: part.key, after, text: 'new ingredient' }, 'name');
}

export const addStep = (dish, after) => addThen({ do: 'add step', dish: dish.key, after, text: 'New step' }, 'text');

export async function addPart(dish) {
  await addThen({ do: 'add part', dish: dish.key, name: `part ${dish.parts.length + 1}` }, 'name');
}

async function addThen(edit, field) {
  const before = new Set(rows().map((row) => row.dataset.key));
  if (!(await attempt(edit))) return;
  const fresh = rows().find((row) => !before.has(row.dataset.key));
  if (fresh) say('edit', { key: fresh.dataset.key, field });
}

/** Say that what was heard less surely of the chosen value is right as it stands, and go on to the next. */
export async function confirmChosen() {
  const all = unsureItems();
  const at = all.findIndex(({ key }) => key === desk.chosen);
  if (at < 0) return tell('This was heard surely, or is settled.');
  const after = all[at + 1]?.key;
  if (!(await attempt({ do: 'confirm', item: desk.chosen, fields: unsureOf(all[at].item) }))) return;
  if (after) choose(after, { sound: true, focus: true });
  else goUnsure(1);
}

/** The next value that the reader was less sure of (1), or the one before (-1), and its words heard. */
export function goUnsure(step) {
  const all = unsureItems();
  if (!all.length) return tell('Nothing is left that was heard less surely.');
  const now = all.findIndex(({ key }) => key === desk.chosen);
  const next = all[((now < 0 && step < 0 ? 0 : now) + step + all.length) % all.length];
  choose(next.key, { sound: true, focus: true });
  tell(`${all.indexOf(next) + 1} of ${all.length} heard less surely`);
}
