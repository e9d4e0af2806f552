// The content security policies, and the text around the frame's script. `hash` is the base64 SHA-256 of that
// script: a nonce could be read by a cell, a hash admits nothing but the script itself.

/**
 * Policy of the frame. Cells are evaluated as text, so 'unsafe-eval'; nothing may be loaded or connected to; text
 * becomes elements only through Lit's own policy, which src/frame/lockdown.ts watches.
 */
export const framePolicy = (hash: string): string =>
  [
    "default-src 'none'",
    `script-src 'unsafe-eval' 'sha256-${hash}'`,
    "style-src 'unsafe-inline'",
    'img-src data: blob:',
    'font-src data:',
    "connect-src 'none'",
    "worker-src 'none'",
    "child-src 'none'",
    "frame-src 'none'",
    "object-src 'none'",
    "form-action 'none'",
    "base-uri 'none'",
    "require-trusted-types-for 'script'",
    'trusted-types default lit-html',
  ].join('; ');

/**
 * Policy of the host page. A srcdoc frame inherits it, so the frame's hash, 'unsafe-eval' and policy names are here
 * too; the host itself has no default Trusted Types policy, so it cannot evaluate text. frame-src 'none' keeps the
 * frame from being led elsewhere. worker-src is for the one worker that keeps the files for offline use; the frame has an
 * origin of its own and its own policy says 'none'.
 */
export const hostPolicy = (hash: string): string =>
  [
    "default-src 'none'",
    `script-src 'self' 'unsafe-eval' 'sha256-${hash}'`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    "connect-src 'self'",
    "worker-src 'self'",
    "frame-src 'none'",
    "object-src 'none'",
    "form-action 'none'",
    "base-uri 'none'",
    "require-trusted-types-for 'script'",
    'trusted-types host offline default lit-html dompurify',
  ].join('; ');

/** The frame's whole document. It may hold no link element: those connect in spite of any policy. */
export const frameHtml = (policy: string, code: string): string =>
  `<!doctype html><html lang="en"><head><meta charset="utf-8">` +
  `<meta http-equiv="Content-Security-Policy" content="${policy}">` +
  `<meta name="viewport" content="width=device-width, initial-scale=1"><title>Workbook</title></head>` +
  `<body><script>${code}</script></body></html>\n`;
