import type { Attacks } from './attacks.ts';

const SVG = 'http://www.w3.org/2000/svg';
const OVER_ALL = 'position:fixed;inset:0;z-index:99';

/** Other windows, forms, and what waits for the reader's click. */
export const WINDOWS: Attacks = {
  top: (there) => `top.location.href = '${there}';`,
  parent: (there) => `parent.location.replace('${there}');`,
  'top-by-open': (there) => `open('${there}', '_top');`,
  popup: (there) => `window.open('${there}');`,
  'popup-silent': (there) => `window.open('${there}', '_blank', 'noopener');`,
  'picture-in-picture': (there) =>
    `const w = await documentPictureInPicture.requestWindow(); w.location.href = '${there}';`,
  form: (there) =>
    `const f = document.createElement('form'); f.action = '${there}'; document.body.append(f); f.submit();`,
  'form-post': (there) =>
    `const f = document.createElement('form'); f.method = 'post'; f.action = '${there}'; document.body.append(f); f.requestSubmit();`,
  'form-of-button': (there) =>
    `const f = document.createElement('form'); const b = document.createElement('button'); b.formAction = '${there}';
     f.append(b); document.body.append(f); b.click();`,
  'form-new-window': (there) =>
    `const f = document.createElement('form'); f.target = '_blank'; f.action = '${there}'; document.body.append(f); f.submit();`,
  link: (there) =>
    `const a = document.createElement('a'); a.href = '${there}'; a.textContent = 'x'; a.style = '${OVER_ALL}'; document.body.append(a);`,
  'link-clicked': (there) =>
    `const a = document.createElement('a'); a.href = '${there}'; document.body.append(a); a.click();`,
  'link-downloaded': (there) =>
    `const a = document.createElement('a'); a.href = '${there}'; a.download = 'x'; document.body.append(a); a.click();`,
  'link-pinging': (there) =>
    `const a = document.createElement('a'); a.href = '#x'; a.ping = '${there}'; document.body.append(a); a.click();`,
  'link-area': (there) =>
    `const m = document.createElement('map'); const a = document.createElement('area'); a.href = '${there}'; m.append(a);
     document.body.append(m); a.click();`,
  'link-of-drawing': (there) =>
    `const svg = document.createElementNS('${SVG}', 'svg'); const a = document.createElementNS('${SVG}', 'a');
     a.setAttribute('href', '${there}'); svg.append(a); svg.style = '${OVER_ALL}'; document.body.append(svg);`,
  'link-of-formula': (there) =>
    `const m = document.createElementNS('http://www.w3.org/1998/Math/MathML', 'mtext'); m.setAttribute('href', '${there}');
     m.textContent = 'x'; m.style = '${OVER_ALL}'; document.body.append(m);`,
  'link-command': (there) =>
    `document.body.contentEditable = 'true'; getSelection().selectAllChildren(document.body);
     document.execCommand('createLink', false, '${there}');`,
  'link-in-drawing-used': (there) =>
    `const file = '<svg xmlns="${SVG}"><a id="x" href="${there}"><rect width="999" height="999"/></a></svg>';
     const u = document.createElementNS('${SVG}', 'use');
     u.setAttribute('href', URL.createObjectURL(new Blob([file], { type: 'image/svg+xml' })) + '#x');
     const svg = document.createElementNS('${SVG}', 'svg');
     svg.style = 'position:fixed;inset:0;z-index:98;width:100%;height:100%'; svg.append(u); document.body.append(svg);`,
  'protocol-handler': (there) => `navigator.registerProtocolHandler('web+x', '${there}/%s');`,
  'share-sheet': (there) => `await navigator.share({ url: '${there}' });`,
};

/** These lead the frame itself away. */
export const LEAVING_FRAME: Attacks = {
  location: (there) => `location.href = '${there}';`,
  'location-replace': (there) => `location.replace('${there}');`,
  navigation: (there) => `navigation.navigate('${there}');`,
  'open-self': (there) => `open('${there}', '_self');`,
};
