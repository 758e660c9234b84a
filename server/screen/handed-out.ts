/** Files that a browser is handed: kept under their name, or shown. */
import type { Response } from 'express';

/** A file that the browser keeps. */
export const saved = (response: Response, type: string, name: string, content: string | Uint8Array): void =>
  handedOut(response, type, `attachment; filename="${name}"`, content);

/** A paper that the browser shows. */
export const shown = (response: Response, name: string, pdf: Uint8Array): void =>
  handedOut(response, 'application/pdf', `inline; filename="${name}"`, pdf);

const handedOut = (response: Response, type: string, disposition: string, content: string | Uint8Array): void => {
  response
    .type(type)
    .set('Content-Disposition', disposition)
    .send(typeof content === 'string' ? content : Buffer.from(content));
};
