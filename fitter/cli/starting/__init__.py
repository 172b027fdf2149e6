"""`fitter new`: a commented starter file, from flags or by asking.

The road of an answer: question (`questions`, `surveying`) → answer (`asking`) → sheet (`sheet`) → file
(`fitter.project.writing`). An interview that stops early leaves a draft (`drafts`), and is taken up from there.
Flags (`flags`) fill the same sheet.
"""
