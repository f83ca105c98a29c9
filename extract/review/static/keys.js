// The keys: one table, from which they work and from which they are shown.
import { go } from './ask.js';
import { hearChosen } from './choosing.js';
import { redo, undo } from './desk.js';
import { byId, el } from './dom.js';
import { pause } from './player.js';
import { openFields } from './recipe.js';
import { addRow, confirmChosen, goUnsure, joinRow, moveFocus, moveRow, focusedRow, removeRow, toggleOptional } from './rows.js';
import { goDish } from './show.js';
import { hearCue, ofWords, toValue, toWords } from './words.js';

const inWords = () => Boolean(document.activeElement?.closest?.('#words'));
const onRow = () => Boolean(focusedRow());

/** Each: the group it is shown in, the key as it is shown, what it does, whether it applies, the work. */
function table(leaf, marking, showKeys) {
  const toRecipe = () => {
    const value = inWords();
    leaf('recipe');
    if (value) toValue();
    else moveFocus(0);
  };
  return [
    ['Everywhere', 'q', 'the next question that is open', () => true, () => go(1)],
    ['Everywhere', 'Q', 'the question before', () => true, () => go(-1)],
    ['Everywhere', 'n', 'the next value that was heard less surely', () => true, () => { leaf('recipe'); goUnsure(1); }],
    ['Everywhere', 'N', 'the one before', () => true, () => { leaf('recipe'); goUnsure(-1); }],
    ['Everywhere', 'y', 'yes, what is chosen was heard rightly; the next', () => !inWords(), confirmChosen],
    ['Everywhere', 'h', 'hear what is chosen', () => true, () => (inWords() ? hearCue() : hearChosen())],
    ['Everywhere', '.', 'stop, or play on', () => true, pause],
    ['Everywhere', 'd', 'the next dish', () => true, () => goDish(1)],
    ['Everywhere', 'D', 'the dish before', () => true, () => goDish(-1)],
    ['Everywhere', 'w', 'to the words behind what is chosen', () => !inWords(), () => { leaf('said'); toWords(); }],
    ['Everywhere', 'r', 'to the recipe; from words, to what came of them', () => true, toRecipe],
    ['Everywhere', 'p', 'the page as it will read', () => true, () => leaf('finished')],
    ['Everywhere', 'u', 'undo (also Ctrl+Z)', () => true, undo],
    ['Everywhere', 'U', 'redo (also Ctrl+Y)', () => true, redo],
    ['Everywhere', 'v', 'mark as reviewed', () => true, marking],
    ['Everywhere', '?', 'these keys', () => true, showKeys],
    ['On a line or step', 'ArrowUp', 'the one above', () => onRow(), () => moveFocus(-1)],
    ['On a line or step', 'ArrowDown', 'the one below', () => onRow(), () => moveFocus(1)],
    ['On a line or step', 'Enter', 'open its fields', () => false, null],
    ['On a line or step', '+', 'a new one below', () => true, addRow],
    ['On a line or step', 'Delete', 'take it out', onRow, removeRow],
    ['On a line or step', 'Alt+ArrowUp', 'move it up', onRow, () => moveRow(-1)],
    ['On a line or step', 'Alt+ArrowDown', 'move it down', onRow, () => moveRow(1)],
    ['On a line or step', 'o', 'optional, or not', onRow, toggleOptional],
    ['On a line or step', 'm', 'join a step, or a dish, with the next', onRow, joinRow],
    ['On a line or step', 't', 'open the step’s text', onRow, () => openFields(focusedRow().dataset.key, 'text')],
    ['In the words', 'ArrowLeft ArrowRight', 'choose a word; with Shift, more words', () => false, null],
    ['In the words', 'Shift+ArrowUp Shift+ArrowDown', 'choose whole captions', () => false, null],
    ['In the words', 'l', 'make a line of them', inWords, () => ofWords('line')],
    ['In the words', 's', 'make a step of them', inWords, () => ofWords('step')],
    ['In the words', 'a', 'answer the question in front with them', inWords, () => ofWords('answer')],
    ['In the words', 'x', 'put them where “They are” says: left out, or of a dish', inWords, () => ofWords('put')],
    ['In the words', 'c', 'a new dish begins here', inWords, () => ofWords('cut')],
    ['In the words', '[', 'the dish that is shown begins here', inWords, () => ofWords('begin')],
    ['In the words', ']', 'the dish that is shown ends here', inWords, () => ofWords('end')],
    ['In a field', 'Enter', 'save', () => false, null],
    ['In a field', 'Escape', 'leave it as it was', () => false, null],
    ['In a field', 'Alt+Enter', 'hear the words', () => false, null],
    ['In a field', 'Ctrl+Enter', 'split the step at the cursor', () => false, null],
    ['In a field', 'Ctrl+Enter', 'in an answer: leave it as it is', () => false, null],
    ['In a field', 'Alt+ArrowDown Alt+ArrowUp', 'the next question, the one before', () => false, null],
  ];
}

const SIGNS = { ArrowUp: '↑', ArrowDown: '↓', ArrowLeft: '←', ArrowRight: '→', Delete: 'Del', Escape: 'Esc' };
const shown = (keys) => keys.replaceAll(/Arrow\w+|Delete|Escape/g, (name) => SIGNS[name]).split(' ');

export function startKeys(leaf, marking) {
  const dialog = byId('keys');
  const rows = table(leaf, marking, () => dialog.showModal());
  const groups = [...new Set(rows.map(([group]) => group))];
  byId('key-list').replaceChildren(...groups.map((group) => el('section', {}, el('h3', {}, group),
    el('dl', {}, ...rows.filter(([of]) => of === group).flatMap(([, keys, words]) =>
      [el('dt', {}, ...shown(keys).map((key) => el('kbd', {}, key))), el('dd', {}, words)])))));
  const single = byId('single-keys');
  single.checked = localStorage.getItem('cardwright keys') !== 'off';
  single.addEventListener('change', () => localStorage.setItem('cardwright keys', single.checked ? 'on' : 'off'));
  byId('keys-open').addEventListener('click', () => dialog.showModal());
  document.addEventListener('keydown', (event) => onKey(event, rows, single));
}

function onKey(event, rows, single) {
  const field = event.target.closest?.('input:not([type="checkbox"]), textarea, select, dialog, video, audio');
  if ((event.ctrlKey || event.metaKey) && !event.altKey && !field) {
    const letter = event.key.toLowerCase();
    const work = letter === 'z' ? (event.shiftKey ? redo : undo) : letter === 'y' ? redo : null;
    if (work) {
      event.preventDefault();
      work();
    }
    return;
  }
  if (field || event.ctrlKey || event.metaKey || event.isComposing) return;
  const name = `${event.altKey ? 'Alt+' : ''}${event.key}`;
  if (!single.checked && name.length === 1 && name !== '?') return;
  const found = rows.find(([, key, , applies, work]) => key === name && work && applies());
  if (!found) return;
  event.preventDefault();
  found[4]();
}
