import { prose, textField } from '#hourline';

const asked = {
  value: '',
  help: 'One figure for each rater, apart by spaces.',
  about: {
    says: `What people see who do not know each other’s
      figure; how far they differ is the error of the eye.`,
    source: 'common practice',
  },
};
export const leaves = textField({
  label: 'Lactate leaves its baseline at',
  ...asked,
});
export const steep = textField({
  label: 'Lactate begins to rise steeply at',
  ...asked,
});

export default [
  prose`
    Enter what each of you reads off. What comes of it stands
    at the end of the methods, under the eye.`,
  leaves,
  steep,
];
