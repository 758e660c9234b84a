/** What stands on the glass while the page's own program hangs: frames as the browser draws them, since a hanging page answers nothing. */
import type { CDPSession, Page } from 'playwright-core';

export interface Frames {
  /** Part of the newest frame's upper edge that has this colour, 0 to 1, looked at by another page. */
  partOf(colour: readonly [number, number, number], onlooker: Page): Promise<number>;
  stop(): Promise<void>;
}

export async function watchFrames(page: Page): Promise<Frames> {
  const session: CDPSession = await page.context().newCDPSession(page);
  let newest = '';
  session.on('Page.screencastFrame', ({ data, sessionId }) => {
    newest = data;
    session.send('Page.screencastFrameAck', { sessionId }).catch(() => undefined);
  });
  await session.send('Page.startScreencast', { format: 'png', everyNthFrame: 1 });
  return {
    partOf: (colour, onlooker) => onlooker.evaluate(partOfColour, [newest, ...colour] as const),
    stop: () => session.send('Page.stopScreencast').then(() => undefined),
  };
}

/** Runs in the onlooker. */
async function partOfColour([frame, red, green, blue]: readonly [string, number, number, number]): Promise<number> {
  if (frame === '') return 0;
  const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${frame}`)).blob());
  const canvas = new OffscreenCanvas(picture.width, 40);
  const context = canvas.getContext('2d')!;
  context.drawImage(picture, 0, 0);
  const { data } = context.getImageData(0, 0, picture.width, 40);
  let same = 0;
  for (let at = 0; at < data.length; at += 4)
    if (Math.abs(data[at]! - red) + Math.abs(data[at + 1]! - green) + Math.abs(data[at + 2]! - blue) < 30) same += 1;
  return same / (data.length / 4);
}
