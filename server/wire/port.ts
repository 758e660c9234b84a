/** What the link needs of a port, whatever stands behind it: a device, a pseudo-terminal, or this very process. */

export interface PortHandlers {
  /** Bytes as they come, cut anywhere. The link keeps none of the buffer after the call. */
  onBytes(bytes: Uint8Array): void;
  /** Called once if the port goes away on its own, with the reason; never after close was asked for. */
  onLost(cause: string): void;
}

export interface Port {
  /** Settles when the bytes are handed to the system; rejects if they cannot be. */
  write(text: string): Promise<void>;
  /** Settles when the port is free for the next opening. Never rejects. */
  close(): Promise<void>;
}

/** Opens a port afresh, at its own speed unless another is asked for. Rejects with an error that portAdvice can read. */
export type OpenPort = (path: string, handlers: PortHandlers, baudRate?: number) => Promise<Port>;
