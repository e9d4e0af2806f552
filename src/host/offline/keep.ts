const WORKER = 'worker.js';

let begun = false;

/**
 * Lets the browser keep Hourline for the time without a network. Called when the workbook is up to date, so that
 * fetching the rest of the files delays nothing that the reader waits for.
 */
export function keepForOffline(): void {
  if (begun) return;
  begun = true;
  // Not offered on pages without encryption, from disk, or where storage is refused: there, all but this works.
  // A browser looks for a later version when it sees fit; asked outright, it looks at each visit.
  navigator.serviceWorker
    ?.register(workerAddress())
    .then((kept) => kept.update())
    .catch(() => {});
}

/** The one script that may become a worker, for Trusted Types. */
function workerAddress(): string {
  const policy = window.trustedTypes?.createPolicy('offline', {
    createScriptURL: (file) => (file === WORKER ? file : ''),
  });
  return (policy?.createScriptURL(WORKER) ?? WORKER) as unknown as string;
}
