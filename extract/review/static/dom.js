// Making elements. Text is only ever set as text, never read as markup.

/** An element with attributes (`on…` are listeners, `class`, `dataset`) and children (nodes or texts). */
export function el(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (name === 'dataset') Object.assign(element.dataset, value);
    else element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...children.filter((child) => child !== null && child !== undefined && child !== ''));
  return element;
}

export const byId = (id) => document.getElementById(id);

/** Tell a screen reader, and whoever looks at the foot of the page, what has been done. */
export function tell(text) {
  byId('live').textContent = '';
  requestAnimationFrame(() => { byId('live').textContent = text; });
}

/** What stands in the way: shown at the top until it is dismissed, with what can be done about it. */
export function warn(text, ...ways) {
  const shut = el('button', { type: 'button', onclick: () => box.remove() }, 'Close');
  const box = el('div', { class: 'alert' }, el('p', {}, text), el('p', { class: 'row' }, ...ways, shut));
  for (const way of ways) way.addEventListener('click', () => box.remove());
  byId('alerts').replaceChildren(box);
  return box;
}

export const clearWarning = () => byId('alerts').replaceChildren();

/** Seconds as m:ss, from an hour on as h:mm:ss. */
export function clock(seconds) {
  const whole = Math.floor(seconds);
  const two = (number) => String(number).padStart(2, '0');
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}
