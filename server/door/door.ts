/**
 * The way in: one express application with headers, origin check, static pages and an error answer in
 * words. main mounts each room's router on it.
 */
import express, { type Express, type NextFunction, type Request, type Response, type Router } from 'express';
import helmet from 'helmet';

export interface DoorOptions {
  /** The built pages. */
  readonly webFolder: string;
  readonly routers: readonly Router[];
  /** Told of each failure that no router expected. */
  readonly onFailure: (cause: unknown) => void;
}

export function createDoor({ webFolder, routers, onFailure }: DoorOptions): Express {
  const app = express();
  app.disable('x-powered-by');
  app.use(
    helmet({
      contentSecurityPolicy: {
        directives: {
          defaultSrc: ["'self'"],
          imgSrc: ["'self'", 'data:', 'blob:'],
          styleSrc: ["'self'", "'unsafe-inline'"],
          connectSrc: ["'self'", 'ws:', 'wss:'],
          // A shop network speaks plain HTTP: with this the pages would ask for HTTPS that is not there.
          upgradeInsecureRequests: null,
        },
      },
      strictTransportSecurity: false,
    }),
  );
  app.use('/api', refuseForeignOrigin);
  for (const router of routers) app.use('/api', router);
  app.use('/api', (_request, response) => void response.status(404).json({ because: 'no such address' }));

  app.use(express.static(webFolder, { index: false, maxAge: '1h', immutable: false }));
  app.get('/{*page}', (_request, response) => {
    response.set('Cache-Control', 'no-cache').sendFile('index.html', { root: webFolder });
  });
  app.use((cause: unknown, _request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) return next(cause);
    const status = statusOf(cause);
    if (status >= 500) onFailure(cause);
    response.status(status).json({
      because:
        status === 413 ? 'too large: see the limits in the manual' : cause instanceof Error ? cause.message : 'failed',
    });
  });
  return app;
}

/** Another site's page must not act in this station's name, nor listen to it. */
export function isSameOrigin(origin: string | undefined, host: string | undefined): boolean {
  if (origin === undefined) return true;
  try {
    return host !== undefined && new URL(origin).host === host;
  } catch {
    return false;
  }
}

function refuseForeignOrigin(request: Request, response: Response, next: NextFunction): void {
  if (isSameOrigin(request.get('origin'), request.get('host'))) next();
  else response.status(403).json({ because: 'this request comes from a page of another site' });
}

const statusOf = (cause: unknown): number => {
  const status = (cause as { status?: unknown } | null)?.status;
  return typeof status === 'number' && status >= 400 && status < 600 ? status : 500;
};
