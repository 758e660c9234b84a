export function NewJointPage(_: { readonly correcting?: string }) {
  return null;
}
