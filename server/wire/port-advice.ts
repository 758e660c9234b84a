/**
 * Why a port would not open, and what a person can do about it on this system. Pure: the words depend on
 * the error and the system alone.
 */

export interface Advised {
  readonly cause: string;
  readonly advice: string;
  /** The port on which a board with the same identity is read. */
  readonly twin?: string;
}

export interface PortAdvice extends Advised {
  readonly reason: 'missing' | 'busy' | 'no permission' | 'not a serial port' | 'stuck' | 'other';
}

export const portAdvice = (error: Error, platform: string): PortAdvice => {
  const reason = reasonOf(error.message, platform);
  return { reason, cause: `${causes[reason]} (${error.message})`, advice: adviceFor(reason, platform) };
};

const causes: Readonly<Record<PortAdvice['reason'], string>> = {
  missing: 'no such port',
  busy: 'the port is in use by another program',
  'no permission': 'this user may not open the port',
  'not a serial port': 'this is not a serial port',
  stuck: 'the port hangs',
  other: 'the port cannot be opened',
};

const reasonOf = (message: string, platform: string): PortAdvice['reason'] => {
  const says = (pattern: RegExp): boolean => pattern.test(message);
  if (says(/does not open within/i)) return 'stuck';
  if (says(/no such file|file not found|ENOENT|no such device|ENXIO|ENODEV/i)) return 'missing';
  if (says(/cannot lock|busy|EBUSY|temporarily unavailable|EAGAIN|EWOULDBLOCK/i)) return 'busy';
  // Windows says "access denied" when another program holds the port; it has no permissions for ports.
  if (says(/access (is )?denied/i) && platform === 'win32') return 'busy';
  if (says(/permission denied|EACCES|EPERM|not permitted|access (is )?denied/i)) return 'no permission';
  if (says(/inappropriate ioctl|ENOTTY|is a directory|EISDIR|invalid argument|EINVAL/i)) return 'not a serial port';
  return 'other';
};

const adviceFor = (reason: PortAdvice['reason'], platform: string): string => {
  const system = platform === 'win32' ? 'windows' : platform === 'darwin' ? 'mac' : 'linux';
  return advice[reason][system];
};

const retried = 'The station goes on trying; nothing has to be restarted.';

const advice: Readonly<Record<PortAdvice['reason'], Readonly<Record<'linux' | 'mac' | 'windows', string>>>> = {
  missing: {
    linux: `Plug it in, then see "ls -l /dev/serial/by-id" for its lasting name and use that. ${retried}`,
    mac: `Plug it in, then see "ls /dev/cu.*" for its name (cu, not tty) and use that. ${retried}`,
    windows: `Plug it in, then see "Ports (COM & LPT)" in the Device Manager for its COM number. ${retried}`,
  },
  busy: {
    linux: `"fuser -v PORT" names the program that holds the port: close it. A modem manager may also take a new port for some seconds. ${retried}`,
    mac: `"lsof PORT" names the program that holds the port: close it. ${retried}`,
    windows: `Close the program that holds the port: a terminal, a firmware tool, or a second station. If none is open, unplug the board and plug it in again. ${retried}`,
  },
  'no permission': {
    linux:
      '"ls -l PORT" names the group that may open the port, mostly dialout: "sudo usermod -aG dialout $USER", then log out and in again.',
    mac: '"ls -l PORT" names who may open the port: start the station as that user, or let an administrator change it.',
    windows: 'Start the station as a user who may use this port, or ask the administrator of this machine.',
  },
  'not a serial port': {
    linux: 'Give the path of a serial device, such as one of "ls -l /dev/serial/by-id".',
    mac: 'Give the path of a serial device, such as one of "ls /dev/cu.*".',
    windows: 'Give the name of a serial port, such as COM3; the Device Manager lists them under "Ports (COM & LPT)".',
  },
  stuck: {
    linux: `Unplug it and plug it in again. If the port hangs all the same, start this computer anew. ${retried}`,
    mac: `Unplug it and plug it in again. If the port hangs all the same, start this computer anew. ${retried}`,
    windows: `Unplug it and plug it in again. If the port hangs all the same, start this computer anew. ${retried}`,
  },
  other: {
    linux: `Unplug it and plug it in again; "dmesg | tail" shows what the system says of it. ${retried}`,
    mac: `Unplug it and plug it in again; the driver of its adapter may have to be allowed in the system settings. ${retried}`,
    windows: `Unplug it and plug it in again; a yellow mark in the Device Manager means that its driver is missing. ${retried}`,
  },
};

/** Two boards with the same identity: the one that was read first goes on being read. */
export const twinAdvice = (board: string, port: string, heldOn: string): Advised => ({
  cause: `a second board says that it is ${board}, which is being read on ${heldOn}`,
  advice: `The board on ${port} is not read. Unplug one of the two, give it an identity of its own, and make sure that the readings of ${board} come from the board that is wired to the part.`,
  twin: heldOn,
});

/** No speed made text of what comes. */
export const speedsTried = (rates: readonly number[], before: string): Advised => ({
  cause: 'bytes come that no usual speed makes readable',
  advice: `Tried: ${rates.join(', ')} baud. The port is left alone. If a board of this station is here, start with its own speed (--baud). ${before}`,
});
