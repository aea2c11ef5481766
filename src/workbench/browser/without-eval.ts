import { z } from "zod";

// The policy of the page allows no code made from text: the schemas must not even try. Imported before any of them.
z.config({ jitless: true });
