/** How a serial line or a network address is opened. What differs from instrument to instrument is asked for and never assumed. */
import { z } from 'zod';

const parities = ['none', 'even', 'odd'] as const;

export const serialShape = {
  port: z.string().trim().min(1).max(300).meta({ description: 'Serial port, as /dev/ttyUSB0 or COM3.' }),
  baud: z.int().min(300).max(1_000_000),
  parity: z.enum(parities),
  stopBits: z.literal([1, 2]),
};

export const addressShape = {
  host: z
    .string()
    .trim()
    .min(1)
    .max(253)
    .regex(
      /^[A-Za-z0-9.:_-]+$/,
      'a name or an address on the network, as 192.168.4.20, without http:// and without a port',
    ),
  tcpPort: z.int().min(1).max(65_535),
};

export interface SerialSettings {
  readonly port: string;
  readonly baud: number;
  readonly parity: (typeof parities)[number];
  readonly stopBits: 1 | 2;
}
