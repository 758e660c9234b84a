/** What the pages send about people, parsed once here. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { roles } from '../weld/person.ts';
import { nameSchema } from '../weld/text.ts';

const idSchema = z.string().regex(/^[ps]-[0-9a-f]{8}$/, 'an id of this station');
const secretSchema = z.string().min(1).max(limits.passwordLongest);

/** A badge holds the id of its person and 128 bits of chance. */
export const badgeText = (person: string, secret: string): string => `preheat-badge ${person} ${secret}`;
const badgePattern = /^preheat-badge (p-[0-9a-f]{8}) ([0-9a-f]{32})$/;

export type SignOnRequest =
  | { readonly by: 'password'; readonly name: string; readonly secret: string }
  | { readonly by: 'PIN' | 'badge'; readonly person: string; readonly secret: string };

export const signOnSchema = z
  .union([
    z.strictObject({ name: nameSchema, password: secretSchema }),
    z.strictObject({ person: idSchema, pin: z.string().regex(/^\d{1,16}$/, 'digits') }),
    // A scanner may type capitals or a line end as it was set up.
    z.strictObject({ badge: z.string().max(100).trim().toLowerCase().regex(badgePattern, 'the code of a badge') }),
  ])
  .transform((sent): SignOnRequest => {
    if ('password' in sent) return { by: 'password', name: sent.name, secret: sent.password };
    if ('pin' in sent) return { by: 'PIN', person: sent.person, secret: sent.pin };
    const [, person = '', secret = ''] = badgePattern.exec(sent.badge) ?? [];
    return { by: 'badge', person, secret };
  });

export const personSentSchema = z.strictObject({
  name: nameSchema,
  roles: z.array(z.enum(roles)).min(1, 'at least one role').max(roles.length),
});
export const personChangeSchema = z.strictObject({ ...personSentSchema.shape, active: z.boolean() });
export const screenSentSchema = z.strictObject({ name: nameSchema });
export const ownSecretSchema = z.strictObject({
  kind: z.enum(['password', 'PIN']),
  password: secretSchema,
  secret: secretSchema,
});
