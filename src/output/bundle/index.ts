export { type BundledFile, bundleFile } from './bundleFile.ts';
export {
  BUNDLE_VERSION,
  type BundledKind,
  MANIFEST,
  type Manifest,
  manifestSchema,
  namesOf,
} from './manifest.ts';
export { type ReadmeInput, readme } from './readme.ts';
