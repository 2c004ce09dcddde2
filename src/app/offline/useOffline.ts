/**
 * Opening without a network: has the built files kept on this machine (offline.ts), and says in one line when a newer
 * version has been fetched. The page is never loaded anew by itself.
 */
import type { Keeper } from '../../model/jobs/kept.ts';

/** How often a page that stays open asks whether there is a newer version, ms: when it is looked at again, not more often than this. */
const ASK_EVERY_MS = 3_600_000;

/** Only for the built page, and only where it comes from a server. */
export function useOffline(host: HTMLElement, keeper: Keeper): void {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!import.meta.env.PROD || workers === undefined || !/^https?:$/.test(location.protocol)) return;
  const line = updateLine(host, () =>
    keeper.state.trouble === null
      ? 'What is done here is kept.'
      : 'This browser keeps no work at present: save the file first.',
  );
  let asked = false;
  // The first worker takes over a page that had none: nothing newer about that.
  let had = workers.controller !== null;
  workers.addEventListener('controllerchange', () => {
    if (asked) location.reload();
    else if (had)
      line.say('Another tab has loaded a newer version. This one goes on as it was.', 'Load it here', () => {
        void keeper.flush().then(() => location.reload());
      });
    had = true;
  });

  const offer = (waiting: ServiceWorker): void => {
    line.say('A newer version of the program is ready.', 'Load it', () => {
      // What was done last is written first; then the newer version takes over, and the page comes up with the same job.
      void keeper.flush().then(() => {
        asked = true;
        waiting.postMessage('take over');
      });
    });
  };
  const watch = (registration: ServiceWorkerRegistration): void => {
    if (registration.waiting !== null && workers.controller !== null) offer(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const coming = registration.installing;
      coming?.addEventListener('statechange', () => {
        if (coming.state === 'installed' && workers.controller !== null) offer(coming);
      });
    });
    let last = performance.now();
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible' || performance.now() - last < ASK_EVERY_MS) return;
      last = performance.now();
      registration.update().catch(() => {
        // Without a network there is nothing newer to be had.
      });
    });
  };
  workers
    .register(new URL('offline.js', document.baseURI), { updateViaCache: 'none' })
    .then(watch)
    .catch(() => {
      // A browser that keeps nothing for this page: it works as before, with the network.
    });
}

/** One quiet line under the bar, with one thing to do and a way to put it away. */
function updateLine(
  host: HTMLElement,
  ofWork: () => string,
): { say(words: string, label: string, run: () => void): void } {
  const strip = document.createElement('div');
  strip.className = 'sw-keeping';
  strip.id = 'newer';
  strip.setAttribute('role', 'status');
  host.append(strip);
  return {
    say: (words, label, run) => {
      const said = document.createElement('span');
      said.textContent = `${words} ${ofWork()}`;
      const line = document.createElement('p');
      line.append(
        said,
        button(label, run),
        button('Later', () => strip.replaceChildren()),
      );
      strip.replaceChildren(line);
    },
  };
}

function button(text: string, run: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.className = 'sw-button';
  made.textContent = text;
  made.addEventListener('click', run);
  return made;
}
