// The draft as the server last gave it, what is chosen, and the only way in which it is changed.
import { byId, clearWarning, el, tell, warn } from './dom.js';

const run = document.body.dataset.run;
const windowName = Array.from(crypto.getRandomValues(new Uint32Array(2)), (part) => part.toString(36)).join('');

export const desk = {
  draft: null, // as /draft gives it
  cues: [], // {index, start, end, text, speaker}
  unsure: {}, // by key, the fields that the reader was less sure of
  dish: '', // the key of the dish that is shown
  chosen: '', // the key of the line, step or question that is chosen
  asked: '', // the key of the question that is in front
  reviewer: localStorage.getItem('cardwright reviewer') || document.body.dataset.reviewer,
};

const listeners = new Map();

export function on(what, work) {
  listeners.set(what, [...(listeners.get(what) || []), work]);
}

export function say(what, detail) {
  for (const work of listeners.get(what) || []) work(detail);
}

export const shownDish = () => desk.draft.dishes.find((dish) => dish.key === desk.dish);
export const dishAt = (key) => desk.draft.dishes.findIndex((dish) => dish.key === key);

/** Every item of a dish that words stand behind: {key, kind, said, dish}. */
export function itemsOf(dish) {
  const of = (kind, items) => items.map((item) => ({ key: item.key, kind, said: item.said, item, dish }));
  return [
    ...of('dish', [{ key: dish.key, said: [...dish.makes_said, ...dish.batch_said] }]),
    ...dish.parts.flatMap((part) => [...of('line', part.lines), ...of('share', part.shares)]),
    ...of('step', dish.steps),
    ...of('question', dish.questions),
  ];
}

export function findItem(key) {
  for (const dish of desk.draft.dishes) {
    const found = itemsOf(dish).find((item) => item.key === key);
    if (found) return found;
  }
  return null;
}

/** The open questions of the whole show, the weightiest first. */
export function openQuestions() {
  const all = desk.draft.dishes.flatMap((dish) => dish.questions.map((question) => ({ question, dish })));
  return all.filter(({ question }) => !question.answer).sort((one, two) => two.question.weight - one.question.weight);
}

export async function get(path) {
  const answer = await fetch(path, { credentials: 'same-origin' });
  const type = answer.headers.get('content-type') || '';
  const body = type.includes('json') ? await answer.json() : { reason: (await answer.text()).trim() };
  if (!answer.ok) throw new Error(body.reason);
  return body;
}

export class Refused extends Error {
  constructor(reason, conflict) {
    super(reason);
    this.conflict = conflict;
  }
}

async function post(path, body) {
  let answer;
  try {
    answer = await fetch(path, {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json', 'x-cardwright-run': run },
      body: JSON.stringify({ base: desk.draft.number, window: windowName, by: desk.reviewer, ...body }),
    });
  } catch {
    throw new Refused('Not saved: the program at the terminal does not answer. What you typed is still here.');
  }
  const type = answer.headers.get('content-type') || '';
  const result = type.includes('json') ? await answer.json() : { reason: (await answer.text()).trim() };
  if (!answer.ok) throw new Refused(result.reason, answer.status === 409);
  return result;
}

function take(given) {
  const before = new Map((desk.draft?.dishes || []).map((dish) => [dish.key, dish]));
  given.dishes = given.dishes.map((dish) => (dish.parts ? dish : before.get(dish.key)));
  desk.draft = given;
  if (!shownDish()) desk.dish = given.dishes[0]?.key || '';
  say('draft');
}

let changing = 0; // changes that are not answered yet
let line = Promise.resolve(); // changes go one after another, in the order in which they were made

function change(path, body) {
  changing += 1;
  const result = line.then(async () => {
    say('saving');
    try {
      const known = body.base === undefined ? {} : { base: Math.min(body.base, desk.draft.number) };
      const answer = await post(path, { ...body, ...known });
      clearWarning();
      take(answer.draft);
      tell(`Saved. ${answer.done}`);
      return answer;
    } catch (problem) {
      say('unsaved', problem);
      if (problem.conflict) await refresh(true);
      throw problem;
    }
  });
  line = result.catch(() => {}).finally(() => { changing -= 1; });
  return result;
}

/** Make an edit; `base` is the state that whoever edits has seen. Rejects with Refused, nothing changed. */
export const edit = (what, base) => change('/edit', { edit: what, ...(base === undefined ? {} : { base }) });

/** The same, where a refusal needs no field to be shown beside: it is told at the top. */
export async function attempt(what, base) {
  try {
    return await edit(what, base);
  } catch (problem) {
    warn(problem.message, ...(problem.conflict ? [again(() => attempt(what))] : []));
    return null;
  }
}

const again = (work) => el('button', { type: 'button', onclick: work }, 'Do it all the same');

async function tried(path, body = {}) {
  try {
    return await change(path, body);
  } catch (problem) {
    warn(problem.message, ...(problem.conflict ? [again(() => tried(path, { ...body, sure: true }))] : []));
    return null;
  }
}

export const undo = () => tried('/undo');
export const redo = () => tried('/redo');
export const backTo = (number) => tried('/back', { number });
export const draftAgain = () => tried('/again');
export const putBack = () => tried('/put-back');

/** Fetch what has changed; `all` even where nothing seems to have. */
export async function refresh(all) {
  const number = desk.draft ? desk.draft.number : -1;
  if (!all && desk.draft) {
    const now = await get('/standing');
    fault(now.fault);
    if (changing || now.number === desk.draft.number) return false; // or it was this window itself
  }
  const given = await get(`/draft?since=${number}`);
  fault(given.fault);
  take(given);
  return true;
}

let told = '';

function fault(text) {
  if (text && text !== told) {
    warn(text, el('button', { type: 'button', onclick: putBack }, 'Write it there again as I last saved it'));
  }
  if (!text && told) clearWarning();
  told = text;
}

/** Which values the reader was less sure of; it reads the talk anew for that, so they come a little later. */
export async function listen() {
  try {
    desk.unsure = await get('/unsure');
  } catch {
    desk.unsure = {}; // a talk that cannot be read has been told of already
  }
  say('unsure');
}

/** The fields of an item that the reader was less sure of and no reviewer has settled. */
export function unsureOf(item) {
  const settled = item.by_reviewer || [];
  if (settled.some((field) => ['', 'line', 'step'].includes(field))) return [];
  return (desk.unsure[item.key] || []).filter((field) => !settled.includes(field));
}

/** Every value of the show that the reader was less sure of, in the order of the recipes: {key, dish}. */
export const unsureItems = () => desk.draft.dishes.flatMap(itemsOf).filter(({ item }) => item && unsureOf(item).length);

/** Look now and then for what other windows and programs did. */
export function watch() {
  setInterval(async () => {
    if (document.hidden) return;
    try {
      if (await refresh(false)) tell('The draft was changed in another window or by another program.');
    } catch { /* the next change tells */ }
  }, 2500);
}

export const openField = () => document.querySelector('form.field-form');
export { byId };
