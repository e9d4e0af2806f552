import DOMPurify, { type Config } from 'dompurify';
import { compact } from './compact.ts';

/**
 * Results come from the frame, so they are hostile HTML. What passes is text, tables and drawings; nothing that
 * loads, leads elsewhere, takes input, or styles more than itself.
 */
const RULES: Config = {
  USE_PROFILES: { html: true, svg: true },
  FORBID_TAGS: [
    ...['form', 'input', 'button', 'select', 'option', 'textarea', 'label', 'fieldset', 'dialog'],
    ...['a', 'area', 'map', 'style', 'link', 'meta', 'base', 'title', 'img', 'image', 'picture', 'use'],
    ...['audio', 'video', 'source', 'track', 'iframe', 'object', 'embed', 'template', 'slot'],
    ...['animate', 'animatemotion', 'animatetransform', 'set', 'filter', 'feimage'],
  ],
  FORBID_ATTR: [
    ...['href', 'xlink:href', 'src', 'srcset', 'action', 'formaction', 'background', 'poster', 'ping'],
    ...['cite', 'target', 'contenteditable', 'autofocus', 'popover', 'popovertarget', 'slot', 'part'],
  ],
  ALLOW_DATA_ATTR: false,
};

/** A reference into the drawing itself, as clip paths and hatchings need it; any other would load something. */
const OWN_REFERENCE = /^\s*url\(\s*["']?#[\w-]+["']?\s*\)\s*$/;

/** What the page itself names; a result of the same name would speak in its place. */
const OUR_NAME = /^((cautions|provenance)-title|hourline-workbook)$/;

DOMPurify.addHook('uponSanitizeAttribute', (element, attribute) => {
  const { attrName, attrValue } = attribute;
  // Only what scrolls is reached by the keyboard, in the order of the page.
  if (attrName === 'tabindex' && attrValue !== '0') attribute.keepAttr = false;
  // Parts of a picture have no names of their own: it is one image to a screen reader.
  if (attrName === 'aria-label' && element.localName === 'g') attribute.keepAttr = false;
  if (attrName === 'id' && OUR_NAME.test(attrValue)) attribute.keepAttr = false;
  const loads = /url\s*\(|image-set|expression|\\/i.test(attrValue);
  const styles = attrName === 'style' || /^(fill|stroke|clip-path|mask|marker|filter|cursor)/.test(attrName);
  if (styles && loads && !OWN_REFERENCE.test(attrValue)) attribute.keepAttr = false;
});

/** HTML that is safe to put into the share page, in few letters. */
export const sanitise = (html: string): string => compact(DOMPurify.sanitize(html, RULES));
