"""What to do when: tasks from the steps, and the shortest order of them in the hours there are."""
