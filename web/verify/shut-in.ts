/**
 * Runs rules that a stranger may have written: in a worker of a frame that has no origin, no storage, no network (the
 * policy of the page and of the frame forbid it) and no way to this page but one text in and one text out.
 */
export type ShutIn = { readonly verdict: string } | { readonly failed: string };

/** Put in by the build: the script of the frame, and its hash as a policy names it. */
declare const frameScript: string;
declare const frameHash: string;

const patience = 10 * 60_000;

export const judgeShutIn = (rules: string, entries: string): Promise<ShutIn> =>
  new Promise((resolve) => {
    const frame = document.createElement('iframe');
    frame.setAttribute('sandbox', 'allow-scripts');
    frame.hidden = true;
    const policy = `default-src 'none'; script-src '${frameHash}'; worker-src blob:`;
    frame.srcdoc = `<!doctype html><meta http-equiv="Content-Security-Policy" content="${policy}"><script>${frameScript}</script>`;
    const end = (answer: ShutIn): void => {
      clearTimeout(timer);
      removeEventListener('message', hear);
      frame.remove();
      resolve(answer);
    };
    const hear = ({ source, data }: MessageEvent): void => {
      if (source !== frame.contentWindow || typeof data !== 'string') return;
      if (data === 'ready') frame.contentWindow?.postMessage({ rules, entries }, '*');
      else end(answerOf(data));
    };
    const timer = setTimeout(() => end({ failed: 'it took too long' }), patience);
    addEventListener('message', hear);
    document.body.append(frame);
  });

const answerOf = (text: string): ShutIn => {
  try {
    const { verdict, failed } = JSON.parse(text) as { verdict?: unknown; failed?: unknown };
    if (typeof verdict === 'string') return { verdict };
    if (typeof failed === 'string') return { failed };
  } catch {
    // Told below.
  }
  return { failed: 'the rules ended without an answer' };
};
