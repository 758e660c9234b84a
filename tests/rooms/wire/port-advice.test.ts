/**
 * The messages below are what `serialport` 13 gave on Linux for the case (seen on this kind of system), and
 * for Windows and macOS what its sources and the threads of its users show; those were not tried here.
 */
import { describe, expect, it } from 'vitest';
import { type PortAdvice, portAdvice } from '../../../server/wire/port-advice.ts';

const cases: readonly [platform: string, message: string, reason: PortAdvice['reason'], advice: RegExp][] = [
  ['linux', 'Error: No such file or directory, cannot open /dev/ttyUSB0', 'missing', /by-id/],
  ['linux', 'Error: Permission denied, cannot open /dev/ttyUSB0', 'no permission', /usermod -aG dialout/],
  ['linux', 'Error Resource temporarily unavailable Cannot lock port', 'busy', /fuser/],
  ['linux', 'Error: Device or resource busy, cannot open /dev/ttyUSB0', 'busy', /modem manager/],
  ['linux', 'Error: Is a directory, cannot open /tmp', 'not a serial port', /serial device/],
  ['linux', 'Error: Inappropriate ioctl for device setting custom baud rate of 115200', 'not a serial port', /by-id/],
  ['darwin', 'Error: No such file or directory, cannot open /dev/cu.usbserial-1', 'missing', /dev\/cu/],
  ['darwin', 'Error: Resource busy, cannot open /dev/cu.usbserial-1', 'busy', /lsof/],
  ['darwin', 'Error: Permission denied, cannot open /dev/cu.usbserial-1', 'no permission', /ls -l/],
  ['win32', 'Opening COM7: File not found', 'missing', /Device Manager/],
  ['win32', 'Opening COM7: Access denied', 'busy', /terminal/],
  ['win32', 'Opening COM7: Unknown error code 31', 'other', /driver/],
  ['linux', 'something new', 'other', /dmesg/],
  ['freebsd', 'Error: Permission denied, cannot open /dev/cuaU0', 'no permission', /ls -l/],
];

describe('advice for a port that does not open', () => {
  it.each(cases)('%s: %s', (platform, message, reason, advice) => {
    const answer = portAdvice(new Error(message), platform);
    expect(answer.reason).toBe(reason);
    expect(answer.advice).toMatch(advice);
    expect(answer.cause).toContain(message);
  });
});
