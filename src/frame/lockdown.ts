/**
 * Closes what the sandbox and the content security policy leave open: peer connections, elements that connect
 * or leave the page at a click, every way of making such elements from text, and ways of outliving Stop. Importing this module does it,
 * so it must be the frame's first import: what runs before could keep the original functions.
 *
 * Cells run in the same realm and may replace anything that is reachable. So nothing here looks up a method at
 * call time: all that is used after boot is captured now and called by `apply`, loops go by index (iterators can
 * be replaced), an argument is read once, and a forbidden thing throws instead of being mended.
 */
const { apply, defineProperty, ownKeys } = Reflect;
const { charCodeAt, indexOf, includes, slice, startsWith, toLowerCase } = String.prototype;
const { has } = Set.prototype;
const { preventDefault } = Event.prototype;

/** Elements that load, connect or lead elsewhere. `use` can show a link from another file. */
const FORBIDDEN = new Set(
  (
    'a area applet base embed fencedframe frame frameset iframe link meta object portal script use ' +
    '!doctype !entity'
  ).split(' '),
);

/** Constructors of no use to an analysis that could reach another machine or make elements from text. */
const REMOVED =
  /^(webkit)?RTC|^(PresentationRequest|PaymentRequest|WebSocketStream|WebTransport|XSLTProcessor)$/;

/** Ways of turning text into elements that Trusted Types guards; any other is removed. */
const GUARDED_HTML = new Set(['innerHTML', 'outerHTML', 'insertAdjacentHTML', 'getHTML']);

function refuse(what: string): never {
  throw new TypeError(`a cell may not ${what}: nothing in a workbook may reach out of its page`);
}

function fix(owner: object, name: PropertyKey, value: unknown): void {
  const done = defineProperty(owner, name, { value, writable: false, configurable: false, enumerable: true });
  if (!done) throw new Error(`Hourline cannot close ${String(name)} in this browser`);
}

/** Lower-case local name of a tag in `text` that starts at `from`, read as HTML or as XML would read it. */
function localName(text: string, from: number): string {
  let start = from;
  let end = from;
  for (; end < text.length; end++) {
    const code = apply(charCodeAt, text, [end]);
    if (code <= 32 || code === 47 || code === 62) break; // space, slash, greater-than
    if (code === 58) start = end + 1; // colon: what stood before was an XML prefix
  }
  return apply(slice, text, [start, end]);
}

/** Refuses text that would make a forbidden element, whichever parser reads it. */
function checkMarkup(markup: string): string {
  const text = apply(toLowerCase, `${markup}`, []);
  for (let at = apply(indexOf, text, ['<', 0]); at >= 0; at = apply(indexOf, text, ['<', at + 1])) {
    checkName(localName(text, at + 1));
  }
  return markup;
}

function checkName(name: string): void {
  if (apply(has, FORBIDDEN, [name])) refuse(`create <${name}>`);
}

/** A qualified name as one string that cannot change after the check. */
function checkedName(name: unknown): string {
  const text = `${name}`;
  checkName(localName(apply(toLowerCase, text, []), 0));
  return text;
}

/** Code may be evaluated (the engine does), text may not become elements, and Lit's own templates are checked. */
function guardText(): void {
  const factory = window.trustedTypes!; // the host opens no frame in a browser without it
  const { createPolicy } = factory;
  apply(createPolicy, factory, [
    'default',
    { createScript: (code: string) => code, createHTML: () => refuse('turn text into elements') },
  ]);
  fix(window.TrustedTypePolicyFactory!.prototype, 'createPolicy', function (this: unknown, name: unknown) {
    return apply(createPolicy, this, [`${name}`, { createHTML: checkMarkup }]);
  });
}

function guardElements(): void {
  const { createElement, createElementNS } = Document.prototype;
  fix(Document.prototype, 'createElement', function (this: unknown, name: unknown) {
    return apply(createElement, this, [checkedName(name)]);
  });
  fix(Document.prototype, 'createElementNS', function (this: unknown, space: unknown, name: unknown) {
    return apply(createElementNS, this, [space === null ? null : `${space}`, checkedName(name)]);
  });
  const { define } = CustomElementRegistry.prototype;
  fix(CustomElementRegistry.prototype, 'define', function (this: unknown, ...given: unknown[]) {
    if (given[2] !== undefined) refuse('extend a built-in element');
    return apply(define, this, [given[0], given[1]]);
  });
}

function removeOtherWays(): void {
  for (const name of ownKeys(window)) {
    if (typeof name === 'string' && REMOVED.test(name)) fix(window, name, undefined);
  }
  for (const name of ['open', 'write', 'writeln', 'close', 'execCommand']) {
    fix(Document.prototype, name, () => refuse(`use document.${name}`));
  }
  fix(DOMImplementation.prototype, 'createDocument', () => refuse('make an XML document'));
  for (const owner of [Element.prototype, ShadowRoot.prototype, Document.prototype, Document]) {
    for (const name of ownKeys(owner)) {
      const makesHtml = typeof name === 'string' && name.includes('HTML') && !GUARDED_HTML.has(name);
      if (makesHtml) fix(owner, name, () => refuse(`use ${name}`));
    }
  }
}

/**
 * Events of a page's end. Whoever listens for them is waited for: a browser does not end the process of a removed frame
 * that does, so a loop without end would outlive Stop, and the next frame would share its process.
 */
const OF_THE_END = new Set([
  'visibilitychange',
  'webkitvisibilitychange',
  'pagehide',
  'unload',
  'beforeunload',
]);

function guardEnd(): void {
  const { addEventListener } = EventTarget.prototype;
  fix(EventTarget.prototype, 'addEventListener', function (this: unknown, ...given: unknown[]) {
    const kind = `${given[0]}`;
    if (apply(has, OF_THE_END, [kind])) refuse(`listen for ${kind}`);
    return apply(addEventListener, this ?? window, [kind, given[1], given[2]]);
  });
  for (const kind of OF_THE_END) {
    for (const owner of [
      window,
      Document.prototype,
      HTMLBodyElement.prototype,
      HTMLFrameSetElement.prototype,
    ]) {
      if (`on${kind}` in owner) fix(owner, `on${kind}`, null);
    }
  }
}

/** Pasted or dropped rich text could carry a link into an editable element. Editors here take plain text. */
function guardPaste(): void {
  const type = Object.getOwnPropertyDescriptor(InputEvent.prototype, 'inputType')!.get!;
  const data = Object.getOwnPropertyDescriptor(InputEvent.prototype, 'dataTransfer')!.get!;
  window.addEventListener(
    'beforeinput',
    (event) => {
      const kind: string = apply(type, event, []);
      const brings = apply(startsWith, kind, ['insertFrom']) || apply(includes, kind, ['Link']);
      if (brings && apply(data, event, []) !== null) apply(preventDefault, event, []);
    },
    { capture: true },
  );
}

guardText();
guardElements();
removeOtherWays();
guardEnd();
guardPaste();
// Left in place, they could be turned into a redirection. The policy they declared stays in force.
for (const element of document.querySelectorAll('meta, script')) element.remove();
