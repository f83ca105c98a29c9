// Bringing the page together: loads the draft and the words, and wires what stands at its top.
import { startAsking } from './ask.js';
import { backTo, attempt, desk, draftAgain, get, listen, on, redo, refresh, undo, unsureItems, watch } from './desk.js';
import { byId, el, warn } from './dom.js';
import { startFinished } from './finished.js';
import { startKeys } from './keys.js';
import { startRecipe } from './recipe.js';
import { startShow } from './show.js';
import { loadWords, startWords } from './words.js';

const dates = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });
const when = (stamp) => (stamp ? dates.format(new Date(stamp)) : '');

function standing(saving = '') {
  const { reviewed, saved, open } = desk.draft;
  const doubts = unsureItems().length;
  const mark = !reviewed ? 'not reviewed yet'
    : reviewed.current ? `reviewed by ${reviewed.by}, ${when(reviewed.at)}`
      : `changed since ${reviewed.by} reviewed it, ${when(reviewed.at)}`;
  const state = saving || (saved ? `saved ${when(saved)}` : 'nothing changed yet');
  byId('standing').replaceChildren(
    el('span', { class: reviewed?.current ? 'good' : reviewed ? 'stale' : '' }, mark), ' · ',
    el('span', { id: 'open-count' }, open ? `${open} open` : 'nothing open'), ' · ',
    ...(doubts ? [el('span', { id: 'unsure-count' }, `${doubts} heard less surely`), ' · '] : []),
    el('span', { id: 'saved' }, state));
  const label = (id, name, words) => {
    byId(id).disabled = !words;
    byId(id).title = words ? `${name}: ${words}` : `Nothing to ${name.toLowerCase()}`;
  };
  label('undo', 'Undo', desk.draft.undo);
  label('redo', 'Redo', desk.draft.redo);
  byId('mark').textContent = reviewed?.current ? 'Take the mark off' : 'Mark as reviewed';
}

/** Which of the three leaves is in front, where there is no room for all. */
function leaf(name) {
  document.body.dataset.leaf = name;
  for (const button of document.querySelectorAll('[data-leaf]')) {
    if (button !== document.body) button.setAttribute('aria-pressed', String(button.dataset.leaf === name));
  }
}

async function marking() {
  if (desk.draft.reviewed?.current) {
    await attempt({ do: 'review', clear: true });
    return;
  }
  const { open } = desk.draft;
  byId('signing-open').textContent = open ? `${open} questions are still open. The mark can be set all the same.` : 'Nothing is open.';
  byId('signing-by').value = desk.reviewer;
  byId('signing').returnValue = '';
  byId('signing').showModal();
  byId('signing-by').select();
}

async function signed() {
  const by = byId('signing-by').value.trim();
  if (byId('signing').returnValue !== 'sign' || !by) return;
  desk.reviewer = by;
  localStorage.setItem('cardwright reviewer', by);
  await attempt({ do: 'review', by });
}

async function showEarlier() {
  try {
    const rows = await get('/earlier');
    byId('earlier-list').replaceChildren(...rows.map((row) => el('li', {},
      el('span', {}, `${row.kind === 'edit' || row.kind === 'first' ? '' : `${row.kind}: `}${row.words}`), ' ',
      el('span', { class: 'note' }, [row.by, when(row.at)].filter(Boolean).join(', ')), ' ',
      row.number === desk.draft.number ? el('span', { class: 'note' }, 'as it is now')
        : el('button', { type: 'button', onclick: () => { byId('earlier').close(); backTo(row.number); } }, 'Back to this'))));
    byId('earlier').showModal();
  } catch (problem) {
    warn(problem.message);
  }
}

async function again(button) {
  button.disabled = true;
  button.textContent = 'Drafting again…';
  await draftAgain();
  await loadWords();
  await listen();
}

function wire() {
  byId('undo').addEventListener('click', undo);
  byId('redo').addEventListener('click', redo);
  byId('mark').addEventListener('click', marking);
  byId('earlier-open').addEventListener('click', showEarlier);
  byId('signing').addEventListener('close', signed);
  byId('words-note').addEventListener('click', (event) => { if (event.target.id === 'again') again(event.target); });
  document.querySelector('.leaves').addEventListener('click', (event) => {
    if (event.target.dataset.leaf) leaf(event.target.dataset.leaf);
  });
  on('draft', () => standing());
  on('unsure', () => standing());
  on('saving', () => standing('saving…'));
  on('unsaved', () => standing('not saved'));
}

async function begin() {
  for (const start of [startAsking, startRecipe, startWords, startShow, startFinished, wire]) start();
  startKeys(leaf, marking);
  leaf('recipe');
  try {
    const words = get('/words');
    await refresh(true);
    await loadWords(words);
    document.body.dataset.ready = 'yes';
    performance.mark('ready');
    watch();
    listen();
  } catch (problem) {
    warn(`The draft could not be loaded: ${problem.message}`);
  }
}

begin();
