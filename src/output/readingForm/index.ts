export {
  type FormField,
  type FormPaper,
  type FormPart,
  type FormPath,
  type FormView,
  formOf,
  type ReadingForm,
  readingForm,
} from './readingForm.ts';
