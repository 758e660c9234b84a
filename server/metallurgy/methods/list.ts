/** The methods that are worked for every part. Adding one is a file beside this and a line here. */
import type { Method } from '../method.ts';
import { en10112MethodB } from './en-1011-2-method-b.ts';

export const methods: readonly Method[] = [en10112MethodB];
