package bot
