import { z } from 'zod';

// The page's policy forbids making code from text; schemas do without. Imported before anything that reads.
z.config({ jitless: true });
