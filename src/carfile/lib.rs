//! Car files: what is typed or saved, read into the model and written back.
