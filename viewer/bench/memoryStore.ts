import type { JobStore, StoredJob, StoredModel, StoredPrinter } from './jobStore.ts';

/** A drawer that lasts as long as the page, for browsers that keep nothing. What lies in it is copied in and out, as in one
 *  that lasts. */
export function memoryStore(): JobStore {
  const jobs = new Map<string, StoredJob>();
  const printers = new Map<string, StoredPrinter>();
  const models = new Map<string, StoredModel>();
  const latest = <T extends { readonly saved: number }>(map: Map<string, T>): T[] =>
    structuredClone([...map.values()]).sort((a, b) => b.saved - a.saved);
  return {
    jobs: async () => latest(jobs).map(({ past: _, future: __, ...line }) => line),
    job: async (id) => structuredClone(jobs.get(id)),
    async update(id, change) {
      const there = structuredClone(jobs.get(id));
      const changed = change(there);
      if (changed === undefined || changed === there) return there;
      const next = { ...changed, id, revision: (there?.revision ?? 0) + 1, saved: Date.now() };
      jobs.set(id, structuredClone(next));
      return next;
    },
    overwrite: async (job) => void jobs.set(job.id, structuredClone({ ...job, saved: Date.now() })),
    async remove(ids) {
      for (const id of ids) jobs.delete(id);
    },
    printers: async () => latest(printers),
    putPrinter: async (printer) => void printers.set(printer.id, structuredClone(printer)),
    async removePrinters(ids) {
      for (const id of ids) printers.delete(id);
    },
    model: async (hash) => models.get(hash),
    putModel: async (model) => void models.set(model.hash, model),
  };
}
