import { mkdirSync, mkdtempSync, rmSync, symlinkSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { linuxPorts, nodeOf, portsStamp } from '../../../server/wire/list-ports.ts';

describe('the ports of a Linux computer, from a tree as the kernel makes it', () => {
  let home = '';
  beforeEach(() => {
    home = mkdtempSync(join(tmpdir(), 'ports-'));
  });
  afterEach(() => rmSync(home, { recursive: true }));

  const port = (name: string, driver: string, usb?: Record<string, string>, steps = ['1-1:1.0', name]): void => {
    const device = join(home, 'usb1', `at-${name}`);
    const own = join(device, ...steps);
    mkdirSync(own, { recursive: true });
    for (const [file, content] of Object.entries(usb ?? {})) writeFileSync(join(device, file), `${content}\n`);
    mkdirSync(join(home, 'drivers', driver), { recursive: true });
    symlinkSync(join(home, 'drivers', driver), join(own, 'driver'));
    mkdirSync(join(home, 'tty', name), { recursive: true });
    symlinkSync(own, join(home, 'tty', name, 'device'));
    mkdirSync(join(home, 'dev'), { recursive: true });
    writeFileSync(join(home, 'dev', name), '');
  };

  it('are listed with driver and USB identity, however many steps below the device the port is', () => {
    port('ttyUSB0', 'ch341-uart', { idVendor: '1a86', idProduct: '7523', product: 'USB Serial' });
    port('ttyACM0', 'cdc_acm', { idVendor: '2341', idProduct: '0043', serial: '7593' }, ['1-2:1.0']);
    port('ttyAMA0', 'uart-pl011');
    port('ttyS0', 'serial8250');
    mkdirSync(join(home, 'tty', 'tty1'));
    const found = linuxPorts(join(home, 'tty'), join(home, 'dev'));
    expect(found).toMatchObject([
      {
        path: join(home, 'dev', 'ttyACM0'),
        driver: 'cdc_acm',
        vendorId: '2341',
        productId: '0043',
        serialNumber: '7593',
      },
      { path: join(home, 'dev', 'ttyAMA0'), driver: 'uart-pl011' },
      { driver: 'ch341-uart', vendorId: '1a86', productId: '7523', product: 'USB Serial', serialNumber: undefined },
    ]);
    expect(found[1]).not.toHaveProperty('vendorId');
  });

  it('none where there is no such tree', () => expect(linuxPorts(join(home, 'nothing'), home)).toEqual([]));

  it('have a stamp that changes when one comes, goes, or is made anew, and at nothing else', () => {
    const stamp = (): string | undefined => portsStamp('linux', home);
    const before = stamp();
    writeFileSync(join(home, 'ttyUSB0'), '');
    writeFileSync(join(home, 'tty7'), '');
    const one = stamp();
    expect(one).not.toBe(before);
    expect(stamp()).toBe(one);
    const node = nodeOf(join(home, 'ttyUSB0'));
    unlinkSync(join(home, 'ttyUSB0'));
    expect([stamp(), nodeOf(join(home, 'ttyUSB0'))]).toEqual([before, undefined]);
    writeFileSync(join(home, 'ttyUSB0'), '');
    expect(nodeOf(join(home, 'ttyUSB0'))).not.toBe(node);
    expect(portsStamp('win32')).toBeUndefined();
  });
});
