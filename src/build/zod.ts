/** zod as all schemas use it: it makes no code out of text, which the page's security policy forbids and reports even where it is only tried. Set before the first schema is made. */
import { z } from 'zod';

z.config({ jitless: true });

export { z };
