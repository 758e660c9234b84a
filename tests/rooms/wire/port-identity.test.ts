import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isPseudoTerminal, portIdentity } from '../../../server/wire/port-identity.ts';

describe('identity of a port', () => {
  const ports = [
    { path: '/dev/ttyUSB0', vendorId: '1a86', productId: '7523', serialNumber: undefined },
    { path: '/dev/ttyACM0', vendorId: '2341', productId: '0043', serialNumber: '7593' },
    { path: '/dev/ttyS0' },
  ];
  const list = async () => ports;

  it('is that of the adapter, as the system lists it', async () => {
    expect(await portIdentity('/dev/ttyACM0', list)).toEqual({
      verified: true,
      detail: 'USB 2341:0043, serial number 7593',
    });
    expect(await portIdentity('/dev/ttyUSB0', list)).toEqual({
      verified: true,
      detail: 'USB 1a86:7523, no serial number',
    });
  });

  it('is missing where the system knows none', async () => {
    expect(await portIdentity('/dev/ttyS0', list)).toMatchObject({ verified: false });
    expect(await portIdentity('/dev/ttyUSB9', list)).toMatchObject({ verified: false });
    const broken = async () => Promise.reject(new Error('udevadm is missing'));
    expect(await portIdentity('/dev/ttyACM0', broken)).toMatchObject({ verified: false });
  });

  it('never comes from a pseudo-terminal, whatever the list says', async () => {
    const lying = async () => [{ path: '/dev/pts/3', vendorId: '2341', productId: '0043' }];
    expect(await portIdentity('/dev/pts/3', lying)).toMatchObject({ verified: false });
  });

  it('sees a pseudo-terminal by its path, also through a link', () => {
    expect(isPseudoTerminal('/dev/pts/0')).toBe(true);
    expect(isPseudoTerminal('/dev/ttys004')).toBe(true);
    expect(isPseudoTerminal('/dev/ttyS0')).toBe(false);
    expect(isPseudoTerminal('COM3')).toBe(false);
    const folder = mkdtempSync(join(tmpdir(), 'port-'));
    try {
      // A link is followed before the path is looked at.
      symlinkSync('/dev/null', join(folder, 'pts'));
      expect(isPseudoTerminal(join(folder, 'pts'))).toBe(false);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
