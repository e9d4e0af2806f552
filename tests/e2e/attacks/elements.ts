import type { Attacks } from './attacks.ts';

const SVG = 'http://www.w3.org/2000/svg';
const HTML = 'http://www.w3.org/1999/xhtml';

/** An element of `tag` with these properties set, put into the page. */
const put = (tag: string, properties: string) =>
  `const e = document.createElement('${tag}'); Object.assign(e, { ${properties} }); document.body.append(e);`;

/** A link element, in the head, where a browser heeds all of its kinds. */
const link = (properties: string) =>
  `const e = document.createElement('link'); Object.assign(e, { ${properties} }); document.head.append(e);`;

/** A drawing that holds one element with these attributes. */
const drawn = (tag: string, attributes: string) =>
  `const svg = document.createElementNS('${SVG}', 'svg'); const e = document.createElementNS('${SVG}', '${tag}');
   for (const [key, value] of Object.entries({ ${attributes} })) e.setAttribute(key, value);
   svg.append(e); document.body.append(svg);`;

const styled = (declaration: string) =>
  `const e = document.createElement('p'); e.textContent = 'x'; e.setAttribute('style', \`${declaration}\`); document.body.append(e);`;

const sheet = (rule: string) =>
  `const s = document.createElement('style'); s.textContent = \`${rule}\`; document.head.append(s);
   const e = document.createElement('p'); e.className = 'x'; e.textContent = 'x'; document.body.append(e);`;

/** Elements and styles that load something by themselves. */
export const ELEMENTS: Attacks = {
  image: (there) => `new Image().src = '${there}';`,
  'image-set': (there) => put('img', `srcset: '${there} 2x'`),
  'image-decode': (there) => `const i = new Image(); i.src = '${there}'; await i.decode();`,
  'picture-source': (there) =>
    `const p = document.createElement('picture'); const s = document.createElement('source'); s.srcset = '${there}';
     p.append(s, document.createElement('img')); document.body.append(p);`,
  'input-image': (there) => put('input', `type: 'image', src: '${there}'`),
  video: (there) => put('video', `src: '${there}'`),
  'video-poster': (there) => put('video', `poster: '${there}'`),
  audio: (there) => `new Audio('${there}').load();`,
  track: (there) =>
    `const v = document.createElement('video'); const t = document.createElement('track');
     t.src = '${there}'; t.default = true; v.append(t); document.body.append(v); t.track.mode = 'showing';`,
  object: (there) => put('object', `data: '${there}'`),
  embed: (there) => put('embed', `src: '${there}'`),
  script: (there) => put('script', `src: '${there}'`),
  'script-module': (there) => put('script', `type: 'module', src: '${there}'`),
  'script-inline': (there) => put('script', `textContent: "fetch('${there}')"`),
  'import-map': (there) =>
    put('script', `type: 'importmap', textContent: '{"imports":{"x":"${there}"}}'`) +
    ` await (0, eval)("import('x')");`,
  'speculation-rules': (there) =>
    put('script', `type: 'speculationrules', textContent: '{"prefetch":[{"urls":["${there}"]}]}'`),
  stylesheet: (there) => link(`rel: 'stylesheet', href: '${there}'`),
  preload: (there) => link(`rel: 'preload', as: 'fetch', href: '${there}'`),
  modulepreload: (there) => link(`rel: 'modulepreload', href: '${there}'`),
  prefetch: (there) => link(`rel: 'prefetch', href: '${there}'`),
  prerender: (there) => link(`rel: 'prerender', href: '${there}'`),
  preconnect: (there) => link(`rel: 'preconnect', href: '${there}'`),
  'dns-prefetch': (there) => link(`rel: 'dns-prefetch', href: '${there}'`),
  icon: (there) => link(`rel: 'icon', href: '${there}'`),
  manifest: (there) => link(`rel: 'manifest', href: '${there}'`),
  frame: (there) => put('iframe', `src: '${there}'`),
  'frame-inside': (there) => put('iframe', `srcdoc: '<img src="${there}">'`),
  'frame-script': (there) => put('iframe', `src: "javascript:fetch('${there}')"`),
  'frame-empty': (there) => `${put('iframe', '')} e.contentWindow.fetch('${there}');`,
  'frame-fenced': (there) => put('fencedframe', `config: new FencedFrameConfig('${there}')`),
  portal: (there) => put('portal', `src: '${there}'`),
  base: (there) => `${put('base', `href: '${there}/'`)} new Image().src = 'base';`,
  'svg-image': (there) => drawn('image', `href: '${there}'`),
  'svg-image-old': (there) =>
    `const svg = document.createElementNS('${SVG}', 'svg'); const i = document.createElementNS('${SVG}', 'image');
     i.setAttributeNS('http://www.w3.org/1999/xlink', 'xlink:href', '${there}'); svg.append(i); document.body.append(svg);`,
  'svg-use': (there) => drawn('use', `href: '${there}#x'`),
  'svg-filter-image': (there) => drawn('feImage', `href: '${there}'`),
  'svg-fill': (there) => drawn('rect', `width: 9, height: 9, fill: 'url(${there}#x)'`),
  'svg-script': (there) => drawn('script', `href: '${there}'`),
  'svg-animated': (there) =>
    `const svg = document.createElementNS('${SVG}', 'svg'); const i = document.createElementNS('${SVG}', 'image');
     const s = document.createElementNS('${SVG}', 'set'); s.setAttribute('attributeName', 'href'); s.setAttribute('to', '${there}');
     i.append(s); svg.append(i); document.body.append(svg);`,
  'svg-foreign': (there) =>
    `const svg = document.createElementNS('${SVG}', 'svg'); const f = document.createElementNS('${SVG}', 'foreignObject');
     const i = document.createElementNS('${HTML}', 'img'); i.setAttribute('src', '${there}'); f.append(i); svg.append(f);
     document.body.append(svg);`,
  background: (there) => `document.body.style.backgroundImage = 'url(${there})';`,
  'style-attribute': (there) => styled(`background: url(${there})`),
  'style-border': (there) => styled(`border: 9px solid; border-image: url(${there}) 1`),
  'style-list': (there) => styled(`display: list-item; list-style-image: url(${there})`),
  'style-cursor': (there) => styled(`position: fixed; inset: 0; cursor: url(${there}), auto`),
  'style-mask': (there) => styled(`mask-image: url(${there})`),
  'style-filter': (there) => styled(`filter: url(${there}#x)`),
  'style-clip': (there) => styled(`clip-path: url(${there}#x)`),
  'style-shape': (there) => styled(`float: left; shape-outside: url(${there})`),
  'style-image-set': (there) => styled(`background: image-set("${there}" 1x)`),
  'style-content': (there) => sheet(`.x::before { content: url(${there}); }`),
  'style-import': (there) => sheet(`@import "${there}";`),
  'style-font': (there) => sheet(`@font-face { font-family: y; src: url(${there}); } .x { font-family: y; }`),
  'style-variable': (there) => sheet(`.x { --u: url(${there}); background: var(--u); }`),
  'style-constructed': (there) =>
    `const s = new CSSStyleSheet(); s.replaceSync('p { background: url(${there}); }');
     document.adoptedStyleSheets = [s]; document.body.append(document.createElement('p'));`,
  font: (there) => `await new FontFace('f', 'url(${there})').load();`,
};
