/** Which ports a station may open beside those that were named: adapters by their USB identity, wherever they are plugged in. */
import type { ListedPort } from './port-identity.ts';

export type UsbRule =
  | 'any'
  | { readonly vendorId: string; readonly productId: string; readonly serialNumber?: string | undefined };

/** "any", "1a86:7523" or "2341:0043:7593"; undefined if it is none of these. */
export function readUsbRule(text: string): UsbRule | undefined {
  if (text === 'any') return 'any';
  const [, vendorId, productId, serialNumber] = /^([0-9a-f]{4}):([0-9a-f]{4})(?::(.{1,120}))?$/i.exec(text) ?? [];
  if (vendorId === undefined || productId === undefined) return undefined;
  return { vendorId: vendorId.toLowerCase(), productId: productId.toLowerCase(), serialNumber };
}

/** Never true of a port without a USB identity: what stands behind it is not known. */
export function allows(rule: UsbRule, { vendorId, productId, serialNumber }: ListedPort): boolean {
  if (vendorId === undefined || productId === undefined) return false;
  if (rule === 'any') return true;
  if (vendorId.toLowerCase() !== rule.vendorId || productId.toLowerCase() !== rule.productId) return false;
  return rule.serialNumber === undefined || rule.serialNumber === serialNumber;
}

/** "1a86:7523:5573", or "" where the port has none. */
export const usbIdentity = ({ vendorId, productId, serialNumber }: ListedPort): string =>
  vendorId === undefined || productId === undefined
    ? ''
    : [vendorId.toLowerCase(), productId.toLowerCase(), ...(serialNumber === undefined ? [] : [serialNumber])].join(
        ':',
      );
