import { config } from 'zod';

/**
 * Schemas compile themselves where they can; the page's policy forbids it, and the browser reports each attempt. So
 * this stands before every schema that a page may load.
 */
config({ jitless: true });
