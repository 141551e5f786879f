"""Pictures and files of a job: the sheet beside the job, the shelf of small pictures, one picture with its marks."""
