// Elements. Texts are set as texts, never as markup.
const byId = (id) => document.getElementById(id);

// h makes an element: h('p', {class: 'soft'}, 'text', child, ...). Properties that
// begin with "on" are listeners; true sets an attribute, false and null leave it out.
const h = (tag, props, ...children) => {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(props || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) e.addEventListener(name.slice(2), value);
    else if (name === 'value') e.value = value;
    else if (name === 'checked') e.checked = value;
    else e.setAttribute(name, value === true ? '' : value);
  }
  e.append(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false));
  return e;
};

const svg = (tag, props, ...children) => {
  const e = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(props)) e.setAttribute(name, value);
  e.append(...children);
  return e;
};

// fill replaces what is in an element.
const fill = (e, ...children) => {
  e.replaceChildren(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false));
  return e;
};

const button = (text, act, props) => h('button', { type: 'button', onclick: act, ...props }, text);

// choice is a button that says what it does and what that is.
const choice = (title, about, act) => h('li', {}, h('button', { type: 'button', onclick: act }, h('b', {}, title), h('span', { class: 'soft' }, about)));

// list is a list of texts, or nothing.
const list = (texts, props) => (texts && texts.length ? h('ul', props, texts.map((t) => h('li', {}, t))) : null);

// sentence begins with a capital and ends with a stop.
const sentence = (s) => (s ? s[0].toUpperCase() + s.slice(1) + (/[.?!]$/.test(s) ? '' : '.') : '');

// say tells those who cannot see what has changed.
const say = (text) => {
  byId('live').textContent = '';
  requestAnimationFrame(() => { byId('live').textContent = text; });
};

const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
const wide = () => matchMedia('(min-width: 70rem)').matches;
