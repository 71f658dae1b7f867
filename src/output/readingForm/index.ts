export {
  type FormField,
  type FormPaper,
  type FormPath,
  type FormView,
  type ReadingForm,
  readingForm,
} from './readingForm.ts';
