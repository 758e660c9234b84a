/** What the system tells of a port, in one line. */
import type { ListedPort } from '../wire/port-identity.ts';
import { usbIdentity } from '../wire/usb-rule.ts';

export function hardwareText(port: ListedPort | undefined): string {
  if (port === undefined) return 'the system tells nothing of this port';
  const identity = usbIdentity(port);
  const parts = [
    identity === '' ? 'no USB identity' : `USB ${identity}`,
    port.product ?? port.manufacturer,
    port.driver === undefined ? undefined : `driver ${port.driver}`,
  ];
  return parts.filter((each) => each !== undefined).join(', ');
}
