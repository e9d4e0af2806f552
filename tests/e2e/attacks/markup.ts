import type { Attacks } from './attacks.ts';

const LINK = (there: string) => `<link rel=preconnect href="${there}">`;

/** Ways round the guard over what may be created: text turned into elements, odd names, odd owners. */
export const MARKUP: Attacks = {
  'inner-html': (there) => `document.body.innerHTML = '${LINK(there)}';`,
  'outer-html': (there) => `document.querySelector('hour-cell').outerHTML = '${LINK(there)}';`,
  'adjacent-html': (there) => `document.body.insertAdjacentHTML('beforeend', '${LINK(there)}');`,
  'fragment-of-range': (there) =>
    `document.body.append(document.createRange().createContextualFragment('${LINK(there)}'));`,
  template: (there) =>
    `const t = document.createElement('template'); t.innerHTML = '${LINK(there)}'; document.head.append(t.content);`,
  'shadow-root': (there) =>
    `document.createElement('p').attachShadow({ mode: 'open' }).innerHTML = '${LINK(there)}';`,
  parser: (there) =>
    `const d = new DOMParser().parseFromString('${LINK(there)}', 'text/html');
     document.head.append(document.adoptNode(d.head.firstChild));`,
  'parser-xml': (there) =>
    `const d = new DOMParser().parseFromString('<link xmlns="http://www.w3.org/1999/xhtml" rel="preconnect" href="${there}"/>', 'text/xml');
     document.head.append(document.adoptNode(d.documentElement));`,
  'set-html': (there) => `document.body.setHTML('${LINK(there)}', {});`,
  'set-html-unsafe': (there) => `document.body.setHTMLUnsafe('${LINK(there)}');`,
  'parse-html-unsafe': (there) =>
    `document.head.append(document.adoptNode(Document.parseHTMLUnsafe('${LINK(there)}').head.firstChild));`,
  write: (there) => `document.open(); document.write('<img src="${there}">'); document.close();`,
  'write-line': (there) => `document.writeln('${LINK(there)}');`,
  'other-document': (there) =>
    `const d = document.implementation.createHTMLDocument('x'); d.body.innerHTML = '${LINK(there)}';
     document.head.append(document.adoptNode(d.body.firstChild));`,
  'other-document-element': (there) =>
    `const d = document.implementation.createHTMLDocument('x'); const l = d.createElement('link');
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(document.adoptNode(l));`,
  'xml-document': (there) =>
    `const d = document.implementation.createDocument('http://www.w3.org/1999/xhtml', 'link', null);
     const l = document.adoptNode(d.documentElement); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'clone-of-head': (there) =>
    `const l = document.head.querySelector('style, link').cloneNode(); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'xsl-transform': (there) =>
    `const x = new XSLTProcessor(); x.importStylesheet(new DOMParser().parseFromString(
       '<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"><xsl:template match="/"><link rel="preconnect" href="${there}"/></xsl:template></xsl:stylesheet>', 'text/xml'));
     document.head.append(x.transformToFragment(document, document));`,
  'upper-case': (there) =>
    `const l = document.createElement('LINK'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'name-with-prefix': (there) =>
    `const l = document.createElementNS('http://www.w3.org/1999/xhtml', 'x:link');
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'name-that-changes': (there) =>
    `let asked = 0; const l = document.createElement({ toString: () => (asked++ ? 'link' : 'p') });
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'namespace-that-changes': (there) =>
    `let asked = 0; const l = document.createElementNS({ toString: () => (asked++ ? 'http://www.w3.org/1999/xhtml' : 'x') }, 'link');
     l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'built-in-extended': (there) =>
    `class L extends HTMLLinkElement {} customElements.define('x-l', L, { extends: 'link' });
     const l = new L(); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'own-policy': (there) =>
    `const p = trustedTypes.createPolicy('mine', { createHTML: (s) => s }); document.body.innerHTML = p.createHTML('${LINK(there)}');`,
  'policy-of-lit-again': (there) =>
    `const p = trustedTypes.createPolicy('lit-html', { createHTML: (s) => s }); document.body.innerHTML = p.createHTML('${LINK(there)}');`,
  'default-policy-used': (there) =>
    `document.body.innerHTML = trustedTypes.defaultPolicy.createHTML('${LINK(there)}');`,
  'guard-redefined': (there) =>
    `delete Document.prototype.createElement; Object.defineProperty(Document.prototype, 'createElement', { value: 1 });
     const l = document.createElement('link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  refresh: (there) =>
    `const m = document.createElement('meta'); m.httpEquiv = 'refresh'; m.content = '0;url=${there}'; document.head.append(m);`,
};

/** The same, but they break the page for whatever runs after them. */
export const MARKUP_DISRUPTIVE: Attacks = {
  'primitives-patched': (there) =>
    `Set.prototype.has = () => false; String.prototype.indexOf = () => -1; Reflect.apply = () => '';
     const l = document.createElement('link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'strings-patched': (there) =>
    `String.prototype.toLowerCase = () => 'p'; String.prototype.slice = () => 'p'; String.prototype.charCodeAt = () => 62;
     const l = document.createElement('LINK'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'calls-patched': (there) =>
    `Function.prototype.call = () => 'p'; Function.prototype.apply = () => 'p'; Array.prototype[Symbol.iterator] = function* () { yield 'p'; };
     const l = document.createElement('link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
  'lit-template': (there) =>
    `const cell = customElements.get('hour-cell');
     cell.prototype.render = () => ({ _$litType$: 1, values: [],
       strings: Object.assign(['${LINK(there)}'], { raw: [''] }) });
     document.querySelector('hour-cell').requestUpdate();`,
  'guard-by-prototype': (there) =>
    `Object.setPrototypeOf(document, Object.create(HTMLDocument.prototype));
     const l = Document.prototype.createElement.call(document, 'link'); l.rel = 'preconnect'; l.href = '${there}'; document.head.append(l);`,
};
