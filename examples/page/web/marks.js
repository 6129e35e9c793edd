// Marks of sessions and games: the shapes of the season strip, in a small square.
// They stand beside the word, never in its place.
const markShapes = {
  'full-body': [['rect', { class: 'lift full', x: 3, y: 1, width: 8, height: 14 }]],
  'trimmed-full-body': [['rect', { class: 'lift', x: 3, y: 1, width: 8, height: 14 }], ['rect', { class: 'lift full', x: 3, y: 1, width: 8, height: 8 }]],
  primer: [['path', { class: 'lift full', d: 'M3 2h8L7 14z' }]],
  recovery: [['rect', { class: 'lift', x: 3, y: 1, width: 8, height: 14, rx: 4 }]],
  'post-game': [['rect', { class: 'lift', x: 3, y: 1, width: 8, height: 14 }], ['path', { class: 'fine', d: 'M3 5h8M3 8h8M3 11h8' }]],
  eccentric: [['rect', { class: 'lift', x: 3, y: 1, width: 8, height: 14 }], ['path', { class: 'fine', d: 'M3 1l8 14M11 1L3 15M3 8h8' }]],
  home: [['circle', { class: 'game full', cx: 7, cy: 8, r: 5 }]],
  away: [['path', { class: 'game full', d: 'M1 13h12L7 2z' }]],
  game: [['path', { class: 'game full', d: 'M7 1l6 7-6 7-6-7z' }]],
};

const mark = (item) => {
  let name = item.kind;
  if (item.type === 'game') name = item.home === 'home' || item.home === 'away' ? item.home : 'game';
  const shapes = markShapes[name];
  if (!shapes) return null;
  const e = svg('svg', { class: 'mark', viewBox: '0 0 14 16', width: 14, height: 16, 'aria-hidden': 'true' });
  for (const [tag, props] of shapes) {
    const s = svg(tag, props);
    if (item.type === 'game' && item.state !== 'confirmed' && item.state !== 'played') s.setAttribute('class', item.state === 'if-necessary' ? 'game dash' : 'game');
    e.append(s);
  }
  return e;
};

// What became of a session on its day: a shape beside the word.
const stateShapes = {
  done: 'M2 9l3 4 7-10',
  eased: 'M2 4l5 4 5-4M2 9l5 4 5-4', // less
  swapped: 'M2 5h9l-3-3M12 11H3l3 3', // one for another
  held: 'M4 2v12M10 2v12', // stopped
};

const stateMark = (word) => {
  const d = stateShapes[word];
  return d ? svg('svg', { class: 'mark state', viewBox: '0 0 14 16', width: 14, height: 16, 'aria-hidden': 'true' }, svg('path', { d })) : null;
};
